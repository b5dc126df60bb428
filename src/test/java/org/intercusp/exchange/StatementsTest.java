package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.exchange.DeliveryReport.Way;
import org.intercusp.exchange.DeliveryResult.Delivered;
import org.intercusp.exchange.DeliveryResult.Failed;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.KeptRecords.Manner;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What a server said it can do is remembered for a minute, and not believed against its deeds. */
class StatementsTest {

  private final JumpingClock clock = new JumpingClock();
  private final KeptRecords records = new KeptRecords(Manner.CONDITIONAL);
  private final RecordsClient client =
      new RecordsClient(
          Clients.R4,
          new Guard(GuardLimits.DEFAULT),
          Clients.settings(Duration.ofSeconds(20)),
          clock);
  private FaultyServer server;

  @BeforeEach
  void start() {
    server = new FaultyServer(null).always(one -> true, (one, real) -> records.answer(one));
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private DeliveryResult deliver(Bundle parcel) {
    return client.deliver(server.target(), parcel, Ledger.NONE);
  }

  private long read() {
    return server.asked().stream().filter(Asked::isMetadata).count();
  }

  /** From now on it says, and does, as a server without transactions. */
  private void withoutTransactions() {
    server.first(
        Asked::isMetadata,
        (one, real) -> {
          String statement = new String(records.answer(one).body(), StandardCharsets.UTF_8);
          return Said.of(200, FaultyServer.FHIR, statement.replace("transaction", "batch"));
        });
    refusingTransactions();
  }

  private void refusingTransactions() {
    server.first(
        one -> one.body().contains("\"type\":\"transaction\""),
        (one, real) -> Said.of(405, "text/plain", "no transactions"));
  }

  @Test
  void itIsReadOnceAMinute() {
    Bundle parcel = Parcels.bundle(Parcels.unheardOf());
    for (int i = 0; i < 3; i++) {
      assertThat(deliver(parcel)).isInstanceOf(Delivered.class);
    }
    assertThat(read()).isEqualTo(1);
    clock.jump(Statements.KEPT);
    assertThat(deliver(parcel)).isInstanceOf(Delivered.class);
    assertThat(read()).isEqualTo(2);
    clock.jump(Duration.ZERO);
    assertThat(deliver(parcel)).as("with the clock set back").isInstanceOf(Delivered.class);
    assertThat(read()).isEqualTo(3);
  }

  @Test
  void askingWhetherItIsThereAsksIt() {
    assertThat(client.reach(server.target()).reached()).isTrue();
    server.first(Asked::isMetadata, (one, real) -> Said.of(503, "text/plain", "down"));
    assertThat(client.reach(server.target()).reached()).isFalse();
  }

  @Test
  void aServerThatHasChangedIsReadAnewWithinTheCall() {
    assertThat(deliver(Parcels.bundle(Parcels.unheardOf()))).isInstanceOf(Delivered.class);
    withoutTransactions();
    DeliveryResult result = deliver(Parcels.bundle(Parcels.unheardOf()));
    assertThat(result).isInstanceOf(Delivered.class);
    assertThat(((Delivered) result).report().way())
        .isNotIn(Way.CONDITIONAL_TRANSACTION, Way.TRANSACTION, Way.NOTHING);
    assertThat(read()).isEqualTo(2);
  }

  @Test
  void aServerThatHasNotChangedIsNotAskedTheSameTwice() {
    assertThat(deliver(Parcels.bundle(Parcels.unheardOf()))).isInstanceOf(Delivered.class);
    refusingTransactions();
    long before = server.writes();
    DeliveryResult result = deliver(Parcels.bundle(Parcels.unheardOf()));
    assertThat(result).isInstanceOf(Failed.class);
    assertThat(server.writes() - before).isEqualTo(1);
    assertThat(read()).as("read to see").isEqualTo(2);
  }
}
