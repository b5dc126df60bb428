package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.servlet.http.HttpServlet;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Reach;
import org.intercusp.access.Scopes;
import org.intercusp.archive.Databases;
import org.intercusp.audit.AuditTrail;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.datasource.DelegatingDataSource;
import org.springframework.mock.web.MockFilterChain;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.util.unit.DataSize;

/** Refusals are counted and recorded, and a flood of them brings few records. */
class RefusalCountsTest {

  private static final long NEVER = 3_600_000;

  private final DataSource database = Databases.H2.fresh();
  private final JdbcClient jdbc = JdbcClient.create(database);
  private final AuditTrail trail =
      new AuditTrail(database, CurrentCaller.withLogin(), Clock.systemUTC());
  private RefusalCounts counts = new RefusalCounts(trail, NEVER);

  @AfterEach
  void end() {
    counts.close();
  }

  @Test
  void theFirstIsRecordedAtOnceAndTheRestWithTheirNumber() {
    for (int i = 0; i < 1_000; i++) {
      counts.note(Refusal.MISDIRECTED, from("203.0.113.7", "GET", "/treatments/ZZ-CANARY-7"));
    }
    await(1);
    counts.close();
    List<Map<String, Object>> rows = rows();
    assertThat(rows).hasSizeBetween(1, 2);
    assertThat(rows)
        .allSatisfy(
            row ->
                assertThat(row)
                    .containsEntry("deed", "refuse")
                    .containsEntry("outcome", "4")
                    .containsEntry("agent", "nobody")
                    .containsEntry("network", "203.0.113.7")
                    .containsEntry("thing_type", "treatments"));
    assertThat(told(rows, "421 GET")).isEqualTo(1_000);
    assertThat(rows.toString()).doesNotContain("ZZ-CANARY-7");
  }

  @Test
  void aFloodFromEverywhereIsBoundedAndCountedWhole() {
    int all = 50_000;
    for (int i = 0; i < all; i++) {
      String address = "2001:db8::" + Integer.toHexString(i % 20_000);
      counts.note(Refusal.TOO_LARGE, from(address, "X" + i, "/" + i));
    }
    counts.close();
    List<Map<String, Object>> rows = rows();
    assertThat(rows).hasSizeLessThanOrEqualTo(2 * (RefusalCounts.MOST + 1));
    assertThat(told(rows, "413 another method") + told(rows, "413 of many callers")).isEqualTo(all);
    assertThat(rows)
        .filteredOn(row -> String.valueOf(row.get("detail")).contains("of many callers"))
        .isNotEmpty()
        .allMatch(row -> row.get("network") == null);
  }

  @Test
  void whatCannotBeWrittenIsWrittenLater() {
    jdbc.sql("alter table audit_event rename to away").update();
    for (int i = 0; i < 5; i++) {
      counts.note(Refusal.FOREIGN, from("203.0.113.9", "POST", "/check"));
    }
    LockSupport.parkNanos(50_000_000);
    jdbc.sql("alter table away rename to audit_event").update();
    counts.close();
    assertThat(told(rows(), "403 POST")).isEqualTo(5);
  }

  @Test
  void closingWaitsForWhatIsBeingWritten() throws Exception {
    CountDownLatch writing = new CountDownLatch(1);
    DataSource slow =
        new DelegatingDataSource(database) {
          @Override
          public Connection getConnection() throws SQLException {
            writing.countDown();
            LockSupport.parkNanos(300_000_000);
            return super.getConnection();
          }
        };
    RefusalCounts closing =
        new RefusalCounts(
            new AuditTrail(slow, CurrentCaller.withLogin(), Clock.systemUTC()), NEVER);
    closing.note(Refusal.FOREIGN, from("203.0.113.5", "POST", "/check"));
    assertThat(writing.await(20, TimeUnit.SECONDS)).isTrue();
    closing.close();
    assertThat(told(rows(), "403 POST")).isEqualTo(1);
  }

  @Test
  void eachWindowHasARecordOfItsOwnAndAQuietOneNone() {
    counts.close();
    counts = new RefusalCounts(trail, 50);
    counts.note(Refusal.MEDIA_TYPE, from("203.0.113.1", "POST", "/fhir"));
    await(1);
    LockSupport.parkNanos(300_000_000);
    assertThat(rows()).hasSize(1);
    counts.note(Refusal.MEDIA_TYPE, from("203.0.113.1", "POST", "/fhir"));
    await(2);
  }

  @Test
  void whoComesTooOftenIsRecordedByWhoTheyAre() throws Exception {
    Rates rates =
        new Rates(
            new RateSettings(3, 2, 4, 1_000, DataSize.ofMegabytes(1), DataSize.ofMegabytes(2)),
            new Refusals(Canonicals.RESERVED),
            new HandSetTime());
    Caller busy =
        new Caller("busy", "Busy", Caller.Kind.PROGRAM, new Reach.Clinics(Set.of()), Scopes.NONE);
    FloodFilter flood = new FloodFilter(rates, FloodFilterTest.login());
    for (int i = 0; i < 10; i++) {
      asks(
          flood,
          (asked, answer) -> {
            asked.setAttribute(CallerFilter.CALLER, busy);
            rates.isTooMuch(busy, asked, answer);
          });
    }
    for (int i = 0; i < 6; i++) {
      asks(flood, (asked, answer) -> {});
    }
    counts.close();
    List<Map<String, Object>> rows = rows();
    assertThat(rows).extracting(row -> row.get("agent")).containsOnly("busy", "nobody");
    // Seven of the caller, and of whoever else comes from there two more than the address may ask.
    assertThat(told(rows, "429 GET")).isEqualTo(9);
  }

  /** What stands behind the filters. */
  private interface Door {
    void open(MockHttpServletRequest request, HttpServletResponse response) throws IOException;
  }

  private void asks(FloodFilter flood, Door door) throws Exception {
    MockHttpServletRequest request = from("203.0.113.2", "GET", "/fhir/Patient");
    MockFilterChain behind =
        new MockFilterChain(
            new HttpServlet() {},
            flood,
            new RefusalTrail(trail),
            (asked, answer, chain) -> door.open(request, (HttpServletResponse) answer));
    new RefusalFilter(counts).doFilter(request, new MockHttpServletResponse(), behind);
  }

  private static MockHttpServletRequest from(String address, String method, String path) {
    MockHttpServletRequest request = new MockHttpServletRequest(method, path);
    request.setRemoteAddr(address);
    return request;
  }

  private List<Map<String, Object>> rows() {
    return jdbc.sql("select * from audit_event").query().listOfRows();
  }

  /** How many refusals the records with these words tell of. */
  private static long told(List<Map<String, Object>> rows, String words) {
    return rows.stream()
        .map(row -> String.valueOf(row.get("detail")))
        .filter(detail -> detail.equals(words) || detail.startsWith(words + ", "))
        .mapToLong(
            detail ->
                detail.equals(words)
                    ? 1
                    : Long.parseLong(detail.substring(words.length() + 2).replace(" times", "")))
        .sum();
  }

  private void await(int rows) {
    Instant end = Instant.now().plusSeconds(60);
    while (rows().size() < rows) {
      assertThat(Instant.now()).isBefore(end);
      LockSupport.parkNanos(10_000_000);
    }
  }
}
