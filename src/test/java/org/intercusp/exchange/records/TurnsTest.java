package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What one patient whose turn takes long does to the others: nothing. */
class TurnsTest {

  private static final Duration LONG = Duration.ofSeconds(20);

  private final ExecutorService others = Executors.newCachedThreadPool();

  @AfterEach
  void end() {
    others.shutdownNow();
  }

  @Test
  void nobodyWaitsForAnothersTurn() throws Exception {
    Turns turns = new Turns();
    for (int i = 0; i < 500; i++) {
      assertThat(turns.take("of one server " + i, Duration.ZERO)).isTrue();
    }
    for (int i = 0; i < 500; i++) {
      String name = "of another " + i;
      assertThat(others.submit(() -> turns.take(name, Duration.ZERO)).get()).isTrue();
    }
  }

  @Test
  void aTurnIsOnesOwnAndIsForgottenWhenNobodyWantsIt() throws Exception {
    Turns turns = new Turns();
    assertThat(turns.take("A", Duration.ZERO)).isTrue();
    assertThat(others.submit(() -> turns.take("A", Duration.ofMillis(20))).get()).isFalse();
    Future<Boolean> next =
        others.submit(
            () -> {
              boolean taken = turns.take("A", LONG);
              turns.give("A");
              return taken;
            });
    turns.give("A");
    assertThat(next.get(20, TimeUnit.SECONDS)).isTrue();
    assertThat(turns.isEmpty()).isTrue();
  }
}
