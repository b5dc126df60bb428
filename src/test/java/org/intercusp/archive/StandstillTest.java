package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.intercusp.access.Reach;
import org.intercusp.treatment.Identifier;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** No filing that is under way slips behind a moment with an earlier time. */
class StandstillTest {

  private static final Instant EARLIER = Instant.parse("2026-11-20T09:00:00Z");
  private static final Instant NOW = Instant.parse("2026-11-20T10:00:00Z");

  @ParameterizedTest
  @EnumSource(Databases.class)
  void aFilingUnderWayIsWaitedForAndALaterOneIsLater(Databases kind) throws Exception {
    DataSource database = kind.fresh();
    TransactionTemplate transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    ResourceRows rows = new ResourceRows(database);
    Identifier clinic = new Identifier("urn:x", "harbour-lane");
    transaction.executeWithoutResult(status -> rows.lock(clinic, EARLIER));
    CompletableFuture<Standstill.Moment> moment = new CompletableFuture<>();
    Thread asking =
        new Thread(
            () ->
                moment.complete(
                    transaction.execute(
                        status ->
                            new Standstill(database)
                                .take(alias -> new Reach.Everywhere().condition(alias), NOW))));
    transaction.executeWithoutResult(
        status -> {
          // The clinic is locked: whoever asks for a standstill has to wait.
          rows.lock(clinic, EARLIER.plusSeconds(1));
          asking.start();
          assertThat(moment)
              .as("waits for the filing")
              .isNotCompleted()
              .failsWithin(Duration.ofMillis(700));
        });
    assertThat(moment.get(30, TimeUnit.SECONDS).time()).isEqualTo(NOW);
    Instant filed =
        Objects.requireNonNull(
            transaction.execute(status -> rows.lock(clinic, EARLIER.plusSeconds(2))));
    assertThat(filed).isEqualTo(NOW);
    assertThat(
            JdbcClient.create(database)
                .sql("select filed_at from resource_clinic")
                .query(OffsetDateTime.class)
                .single()
                .withOffsetSameInstant(ZoneOffset.UTC)
                .toInstant())
        .isEqualTo(NOW);
  }
}
