package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.Test;

/** A test of what a command says hears the command alone, not who logs beside it. */
class OverheardTest {

  @Test
  void onlyThisThreadAndThoseItStartsAreHeard() throws Exception {
    ExecutorService beside = Executors.newSingleThreadExecutor();
    beside.submit(() -> {}).get();
    try (Overheard outer = new Overheard();
        Overheard said = new Overheard()) {
      beside.submit(() -> System.err.println("said beside")).get();
      System.err.println("said here");
      System.err.println("10:01 |-WARN in Logger[a.B] - No appenders present in context [d].");
      System.out.println("results");
      Thread own = new Thread(() -> System.err.println("said by its own"));
      own.start();
      own.join();
      assertThat(said.error().lines()).containsExactly("said here", "said by its own");
      assertThat(said.out().lines()).containsExactly("results");
      assertThat(outer.error()).isEmpty();
    } finally {
      beside.shutdown();
    }
  }
}
