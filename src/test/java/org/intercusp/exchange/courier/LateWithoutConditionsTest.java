package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Findings;
import org.intercusp.exchange.KeptRecords;
import org.intercusp.exchange.KeptRecords.Manner;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A server refuses conditions once and takes them the next time. A write that went out without
 * them, and is carried out late, must not come upon one that went out with them meanwhile.
 */
class LateWithoutConditionsTest extends DeliveryRig {

  private final KeptRecords records = new KeptRecords(Manner.CONDITIONAL);
  private final CountDownLatch stored = new CountDownLatch(1);
  private final CountDownLatch late = new CountDownLatch(1);

  private static boolean isConditional(Asked one) {
    return one.isWrite() && one.body().contains("ifNoneExist");
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void isWaitedForAcrossTries(Databases kind) throws Exception {
    hospital.fault(
        1,
        LateWithoutConditionsTest::isConditional,
        (one, real) -> Said.of(413, "text/plain", "too long today"));
    hospital.fault(
        1,
        Asked::isWrite,
        (one, real) -> {
          Thread thread = new Thread(() -> carriedOut(one));
          thread.setDaemon(true);
          thread.start();
          return Said.nothing();
        });
    hospital.always(
        one -> true,
        (one, real) -> {
          Said said = records.answer(one);
          if (one.isWrite()) {
            stored.countDown();
          }
          return said;
        });
    Rig rig = new Rig(kind.fresh());
    rig.start();
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");

    rig.await(id, DeliveryState.DELIVERED);
    assertThat(late.await(10, TimeUnit.SECONDS)).isTrue();
    assertThat(Findings.duplicates(records)).isEmpty();
    assertThat(rig.deliveries.attempts(id)).hasSizeGreaterThan(1);
  }

  /** When another write was stored, or half a second later: much sooner than all is settled. */
  private void carriedOut(Asked one) {
    try {
      stored.await(500, TimeUnit.MILLISECONDS);
      records.answer(one);
      late.countDown();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
