package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.KeptRecords;
import org.intercusp.exchange.KeptRecords.Manner;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.records.DeliveryReport.Way;
import org.intercusp.exchange.records.DeliveryResult.Delivered;
import org.intercusp.exchange.records.DeliveryResult.Failed;
import org.intercusp.exchange.wire.Deadline;
import org.intercusp.exchange.wire.Difficulty;
import org.intercusp.exchange.wire.Past;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A server that declares conditions and refuses Bundles that have them is written to without, and
 * as carefully as one that declares none.
 */
class RefusedConditionsTest {

  private static final Bundle BUNDLE = Parcels.bundle(Parcels.unheardOf());

  private final KeptRecords declares = new KeptRecords(Manner.CONDITIONAL);
  private final KeptRecords records = new KeptRecords(Manner.TRANSACTION);
  private final FaultyServer server = new FaultyServer(null);
  private final RecordsClient client = Clients.within(Duration.ofSeconds(20));
  private final AtomicInteger unconditional = new AtomicInteger();

  @AfterEach
  void end() {
    server.close();
  }

  private void refusing(int status) {
    server.always(
        one -> true,
        (one, real) -> {
          if (one.isMetadata()) {
            return declares.answer(one);
          }
          if (one.isWrite() && one.body().contains("ifNoneExist")) {
            return Said.of(status, "text/plain", "conditions in small Bundles only");
          }
          if (one.isWrite()) {
            unconditional.incrementAndGet();
          }
          return records.answer(one);
        });
  }

  @ParameterizedTest
  @ValueSource(ints = {400, 413})
  void isWrittenToWithoutConditions(int status) {
    refusing(status);
    DeliveryResult result = client.deliver(server.target(), BUNDLE, Ledger.NONE);
    assertThat(((Delivered) result).report().way()).isEqualTo(Way.TRANSACTION);
    assertThat(unconditional).hasValue(1);
    assertThat(twice()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {400, 413})
  void aWriteThatComesLateIsWaitedFor(int status) throws Exception {
    refusing(status);
    CountDownLatch looked = new CountDownLatch(1);
    CountDownLatch done = new CountDownLatch(1);
    server.first(
        1,
        one -> one.isWrite() && !one.body().contains("ifNoneExist"),
        (one, real) -> {
          unconditional.incrementAndGet();
          Thread late =
              new Thread(
                  () -> {
                    try {
                      looked.await();
                      records.answer(one);
                    } catch (InterruptedException e) {
                      Thread.currentThread().interrupt();
                    } finally {
                      done.countDown();
                    }
                  });
          late.setDaemon(true);
          late.start();
          return Said.nothing();
        });

    DeliveryResult unsettled = client.deliver(server.target(), BUNDLE, Ledger.NONE);
    assertThat(((Failed) unsettled).difficulty()).isEqualTo(Difficulty.UNSETTLED);
    assertThat(unconditional).hasValue(1);
    looked.countDown();
    done.await();

    DeliveryResult again = client.deliver(server.target(), BUNDLE, Ledger.NONE);
    assertThat(again).isInstanceOf(Delivered.class);
    assertThat(unconditional).hasValue(1);
    assertThat(twice()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {400, 413})
  void nothingSharedIsCreatedWhileOthersMay(int status) {
    refusing(status);
    Past contended =
        new Past(List.of(), Deadline.in(Duration.ZERO), true, on -> true, () -> {}, () -> false);
    DeliveryResult result = client.deliver(server.target(), BUNDLE, Ledger.NONE, contended);
    assertThat(((Failed) result).difficulty()).isEqualTo(Difficulty.CONTENDED);
    assertThat(unconditional).hasValue(0);
  }

  private List<String> twice() {
    List<String> names = new ArrayList<>();
    records.current().forEach(one -> names.addAll(KeptRecords.names(one)));
    new TreeSet<>(names).forEach(names::remove);
    return names;
  }
}
