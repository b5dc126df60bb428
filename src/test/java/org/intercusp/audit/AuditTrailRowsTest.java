package org.intercusp.audit;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.Clinic;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Reach;
import org.intercusp.access.Scopes;
import org.intercusp.access.TimeSpan;
import org.intercusp.archive.Databases;
import org.intercusp.audit.AuditQuery.Place;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The statements of the trail mean the same on both databases. */
class AuditTrailRowsTest {

  private static final String DATABASES = "org.intercusp.archive.Databases#all";
  private static final Instant NOON = Instant.parse("2026-03-01T12:00:00.123456Z");
  private static final Clinic HERE = new Clinic("https://harbour-lane.example/c", "harbour-lane");
  private static final Clinic THERE = new Clinic("https://harbour-lane.example/c", "quay-side");

  private final CurrentCaller callers = CurrentCaller.withLogin();

  private AuditTrail at(DataSource database, Instant instant) {
    return new AuditTrail(database, callers, Clock.fixed(instant, ZoneOffset.UTC));
  }

  private static Caller of(Clinic clinic) {
    return new Caller(
        clinic.value(),
        clinic.value(),
        Caller.Kind.PROGRAM,
        new Reach.Clinics(Set.of(clinic)),
        Scopes.ALL);
  }

  private <T> T as(Clinic clinic, java.util.function.Supplier<T> work) {
    return callers.as(of(clinic), work);
  }

  private void done(AuditTrail trail, Clinic clinic, int times) {
    for (int i = 0; i < times; i++) {
      as(
          clinic,
          () -> {
            trail.done(Deed.SEARCH, Thing.list("Patient"));
            return 0;
          });
    }
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void pagesPassRecordsOfOneMomentOnceAndStayInReach(Databases kind) {
    DataSource database = kind.fresh();
    AuditTrail trail = at(database, NOON);
    done(trail, HERE, 7);
    done(trail, THERE, 2);
    AuditQuery all = new AuditQuery(List.of(), List.of(), as(HERE, trail::moment));
    done(at(database, NOON.plusSeconds(1)), HERE, 1);
    assertThat(all.moment()).isEqualTo(NOON);
    assertThat(as(HERE, () -> trail.count(all))).isEqualTo(7);
    List<String> seen = new ArrayList<>();
    @Nullable Place after = null;
    for (int i = 0; i < 4; i++) {
      Place behind = after;
      List<AuditRecord> page = as(HERE, () -> trail.search(all, behind, 2));
      page.forEach(one -> seen.add(one.id()));
      AuditRecord last = page.get(page.size() - 1);
      after = new Place(last.recordedAt(), last.id());
    }
    assertThat(seen).hasSize(7).doesNotHaveDuplicates();
    assertThat(as(THERE, () -> trail.count(new AuditQuery(List.of(seen), List.of(), NOON))))
        .isZero();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatIsNobodysIsOfTheClinicOfWhoHasJustOne(Databases kind) {
    AuditTrail trail = at(kind.fresh(), NOON);
    done(trail, HERE, 1);
    Caller ofBoth =
        new Caller(
            "both",
            "both",
            Caller.Kind.PROGRAM,
            new Reach.Clinics(Set.of(HERE, THERE)),
            Scopes.ALL);
    callers.as(
        ofBoth,
        () -> {
          trail.done(Deed.SEARCH, Thing.list("Patient"));
          return 0;
        });
    AuditQuery all = new AuditQuery(List.of(), List.of(), NOON);
    assertThat(callers.as(Caller.LOCAL, () -> trail.search(all, null, 9)))
        .extracting(one -> one.thing().clinic())
        .containsExactlyInAnyOrder(HERE, null);
    assertThat(as(THERE, () -> trail.count(all))).isZero();
    assertThat(callers.as(ofBoth, () -> trail.count(all))).isEqualTo(1);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void spansAreOfTheirTimesOrOutOfThem(Databases kind) {
    DataSource database = kind.fresh();
    for (int hour = 0; hour < 5; hour++) {
      done(at(database, NOON.plusSeconds(3600L * hour)), HERE, 1);
    }
    AuditTrail trail = at(database, NOON);
    Instant end = NOON.plusSeconds(3600 * 9);
    TimeSpan middle = new TimeSpan(NOON.plusSeconds(3600), NOON.plusSeconds(3 * 3600), true);
    TimeSpan elsewhere = new TimeSpan(middle.from(), middle.until(), false);
    TimeSpan last = new TimeSpan(NOON.plusSeconds(4 * 3600), null, true);
    assertThat(counted(trail, end, List.of(List.of(middle)))).isEqualTo(2);
    assertThat(counted(trail, end, List.of(List.of(elsewhere)))).isEqualTo(3);
    assertThat(counted(trail, end, List.of(List.of(middle, last)))).isEqualTo(3);
    assertThat(counted(trail, end, List.of(List.of(elsewhere), List.of(last)))).isEqualTo(1);
  }

  private long counted(AuditTrail trail, Instant moment, List<List<TimeSpan>> times) {
    return as(HERE, () -> trail.count(new AuditQuery(List.of(), times, moment)));
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatFollowsGoesInTheNameOfWhoAskedFirst(Databases kind) {
    DataSource database = kind.fresh();
    AuditTrail trail = at(database, NOON);
    Thing submission = Thing.submission("h-1");
    as(
        HERE,
        () -> {
          trail.done(Deed.QUEUE, submission);
          return 0;
        });
    as(
        THERE,
        () -> {
          at(database, NOON.plusSeconds(1)).done(Deed.READ, submission);
          return 0;
        });
    callers.as(
        Caller.worker("registry"),
        () -> {
          trail.followed(Deed.CREATE, Outcome.SUCCESS, submission, "1 read");
          trail.followed(Deed.CREATE, Outcome.SUCCESS, Thing.submission("h-2"), "2 read");
          trail.refused(
              Thing.list("other"), "2001:db8:0:0:0:0:0:1%a-very-long-name-of-an-interface", "421");
          return 0;
        });
    AuditQuery all = new AuditQuery(List.of(), List.of(), NOON);
    assertThat(as(HERE, () -> trail.search(all, null, 9)))
        .allMatch(one -> one.agent().equals("harbour-lane") && HERE.equals(one.thing().clinic()))
        .extracting(AuditRecord::detail)
        .containsExactlyInAnyOrder("", "1 read");
    List<AuditRecord> every = callers.as(Caller.LOCAL, () -> trail.search(all, null, 9));
    assertThat(every)
        .filteredOn(one -> "h-2".equals(one.thing().id()))
        .extracting(AuditRecord::agent)
        .containsExactly("registry");
    assertThat(every)
        .filteredOn(one -> one.network() != null)
        .allMatch(one -> String.valueOf(one.network()).length() == 45)
        .hasSize(1);
  }
}
