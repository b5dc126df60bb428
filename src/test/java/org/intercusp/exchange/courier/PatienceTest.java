package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Ending;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** When a delivery is held or given up, and how long it waits until then. */
class PatienceTest extends DeliveryRig {

  private final Instant now = Instant.now().truncatedTo(ChronoUnit.MICROS);
  private DeliveryRows rows;
  private String id;

  @BeforeEach
  void queued() {
    Rig rig = new Rig(Databases.H2.fresh());
    rows = new DeliveryRows(rig.database, CurrentCaller.withoutLogin());
    id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
  }

  private Patience at(Instant time) {
    return new Patience(rows, QUICK, Clock.fixed(time, ZoneOffset.UTC));
  }

  private Delivery delivery() {
    return rows.find(id).orElseThrow();
  }

  private static Ending waiting(int status, @Nullable Duration retryAfter) {
    return new Ending(
        DeliveryState.WAITING, "They said " + status, status, "", null, retryAfter, null);
  }

  private void tried(int status) {
    Delivery before = delivery();
    long fence = before.attempts() + 1L;
    assertThat(rows.begin(before, fence, now)).isTrue();
    assertThat(rows.end(before, fence, waiting(status, null), now, now)).isTrue();
  }

  @Test
  void whatOthersKeepWritingIsHeldAtTheThirdTime() {
    assertThat(at(now).with(delivery(), waiting(409, null)).state())
        .isEqualTo(DeliveryState.WAITING);
    tried(409);
    tried(503);
    assertThat(at(now).with(delivery(), waiting(412, null)).state())
        .isEqualTo(DeliveryState.WAITING);
    tried(412);
    Ending held = at(now).with(delivery(), waiting(412, null));
    assertThat(held.state()).isEqualTo(DeliveryState.HELD);
    assertThat(held.reason()).isEqualTo("Others keep writing the same: They said 412");
    assertThat(at(now).with(delivery(), waiting(503, null)).state())
        .isEqualTo(DeliveryState.WAITING);
  }

  @Test
  void itIsGivenUpAfterItsTimeAndTenTriesAndNotByAClockThatJumped() {
    Instant late = now.plus(QUICK.longestTime()).plusSeconds(60);
    for (int i = 0; i < 9; i++) {
      assertThat(at(late).with(delivery(), waiting(503, null)).state())
          .isEqualTo(DeliveryState.WAITING);
      tried(503);
    }
    assertThat(at(late).with(delivery(), waiting(503, null)).reason())
        .isEqualTo("Tried long enough: They said 503");
    assertThat(at(now.plusSeconds(60)).with(delivery(), waiting(503, null)).state())
        .isEqualTo(DeliveryState.WAITING);
  }

  @Test
  void theLongerWaitCounts() {
    Duration asked = Duration.ofMinutes(10);
    assertThat(at(now).due(delivery(), waiting(503, asked))).isEqualTo(now.plus(asked));
    assertThat(at(now).due(delivery(), waiting(503, Duration.ofMillis(1))))
        .isBetween(now.plus(QUICK.firstWait().dividedBy(2)), now.plus(QUICK.longestWait()));
    assertThat(at(now).due(delivery(), Ending.later("not today", asked)))
        .isEqualTo(now.plus(asked));
  }
}
