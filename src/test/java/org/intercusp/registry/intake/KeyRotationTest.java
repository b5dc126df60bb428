package org.intercusp.registry.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.store.CaseStore;
import org.intercusp.registry.store.StoreFault;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A new key beside who writes to the registry at the same time. */
class KeyRotationTest {

  @TempDir Path folder;

  @Test
  void aKeyIsAddedOnlyWhereItIsLaidOver() {
    Registry registry = new Registry(folder);
    Path keys = registry.place.keys();
    try (CaseStore store = CaseStore.open(registry.place.root(), () -> KeyRing.open(keys))) {
      assertThat(store.keys().current()).isEqualTo("k1");
      assertThatThrownBy(registry.intake::rotateKey).isInstanceOf(StoreFault.class);
      assertThat(KeyRing.open(keys).current()).isEqualTo("k1");
    }
    assertThat(registry.intake.rotateKey()).isEqualTo("k2");
  }

  @Test
  void whoWaitsForTheStoreComesWithTheKeysOfThatMoment() throws Exception {
    Registry registry = new Registry(folder);
    List<String> cases = Registry.generated(3, 5);
    registry.load(List.of(cases.get(0)));
    CountDownLatch reading = new CountDownLatch(1);
    CountDownLatch goOn = new CountDownLatch(1);
    ExecutorService two = Executors.newFixedThreadPool(2);
    try {
      Future<LoadStatus> first = two.submit(() -> load(registry, cases.get(1), reading, goOn));
      assertThat(reading.await(1, TimeUnit.MINUTES)).isTrue();
      Future<LoadStatus> waiting = two.submit(() -> registry.load(List.of(cases.get(2))));
      // Long enough for it to stand before the store; a shorter time would let more pass.
      assertThatThrownBy(() -> waiting.get(500, TimeUnit.MILLISECONDS))
          .isInstanceOf(TimeoutException.class);
      KeyRing.rotate(registry.place.keys());
      goOn.countDown();
      assertThat(first.get(1, TimeUnit.MINUTES).counts().fresh()).isEqualTo(1);
      assertThat(waiting.get(1, TimeUnit.MINUTES).counts().fresh()).isEqualTo(1);
    } finally {
      two.shutdownNow();
    }
    assertThat(registry.ask("SELECT key_id, count(*) FROM CASES GROUP BY 1"))
        .containsExactly("k2,3");
  }

  private static LoadStatus load(
      Registry registry, String line, CountDownLatch reading, CountDownLatch goOn)
      throws Exception {
    InputStream slow =
        new ByteArrayInputStream(line.getBytes(UTF_8)) {
          @Override
          public synchronized int read(byte[] into, int from, int most) {
            reading.countDown();
            try {
              goOn.await(1, TimeUnit.MINUTES);
            } catch (InterruptedException e) {
              Thread.currentThread().interrupt();
            }
            return super.read(into, from, most);
          }
        };
    return registry.intake.load(slow, (status, refusals) -> {}, () -> false);
  }
}
