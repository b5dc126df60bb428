package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** How often a server is asked what it can do. */
class StatementsTest {

  private final FaultyServer server = new FaultyServer(null);
  private final JumpingClock clock = new JumpingClock();
  private final RecordsClient client =
      new RecordsClient(
          Clients.R4,
          new Guard(GuardLimits.DEFAULT),
          Clients.settings(Duration.ofSeconds(30)),
          clock);

  @BeforeEach
  void begin() {
    new FakeRecords(server);
  }

  @AfterEach
  void end() {
    server.close();
  }

  @Test
  void isAskedOnceForMany() {
    deliver();
    deliver();
    assertThat(asked()).isEqualTo(1);
  }

  @Test
  void isAskedAgainAfterAWhileAndWhenTheClockWasSetBack() {
    deliver();
    clock.jump(Statements.HOLDS.plusSeconds(1));
    deliver();
    assertThat(asked()).isEqualTo(2);
    clock.jump(Duration.ofDays(-1));
    deliver();
    assertThat(asked()).isEqualTo(3);
  }

  @Test
  void isAskedAgainOnceAnythingWentWrong() {
    deliver();
    server.first(1, Asked::isWrite, (one, real) -> Said.of(422, "text/plain", "not today"));
    assertThat(client.deliver(server.target(), Parcels.bundle(Parcels.unheardOf()), Ledger.NONE))
        .isInstanceOf(DeliveryResult.Failed.class);
    deliver();
    assertThat(asked()).isEqualTo(2);
  }

  @Test
  void whoAsksWhetherItIsThereIsToldWhatIsSo() {
    deliver();
    assertThat(client.reach(server.target()).reached()).isTrue();
    server.first(one -> true, (one, real) -> Said.of(503, "text/plain", ""));
    assertThat(client.reach(server.target()).reached()).isFalse();
  }

  private void deliver() {
    assertThat(client.deliver(server.target(), Parcels.bundle(Parcels.unheardOf()), Ledger.NONE))
        .isInstanceOf(DeliveryResult.Delivered.class);
  }

  private long asked() {
    return server.asked().stream().filter(Asked::isMetadata).count();
  }
}
