package org.intercusp.exchange.wire;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.URI;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What one recipient whose name is not found does to the others: nothing. */
class SlowNeighbourTest {

  private static final Duration LONG = Duration.ofSeconds(20);

  private final ExecutorService others = Executors.newCachedThreadPool();
  private final CountDownLatch over = new CountDownLatch(1);

  @AfterEach
  void end() {
    over.countDown();
    others.shutdownNow();
  }

  @Test
  void aNameThatIsNotFoundDelaysNoOtherAndTakesOneThread() throws Exception {
    AtomicInteger asked = new AtomicInteger();
    Surroundings around = new Surroundings(host -> found(host, asked));
    List<Future<String>> waiting = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      waiting.add(others.submit(() -> checked(around, "dead.example", LONG)));
    }
    assertThat(checked(around, "dead.example", Duration.ofMillis(500))).contains("in time");
    assertThat(checked(around, "well.example", Duration.ofSeconds(5))).isEmpty();
    assertThat(asked).as("questions for the one that hangs").hasValue(1);
    over.countDown();
    for (Future<String> one : waiting) {
      assertThat(one.get(20, TimeUnit.SECONDS)).isEmpty();
    }
    assertThat(checked(around, "dead.example", LONG)).isEmpty();
    assertThat(asked).as("asked anew after its answer").hasValueGreaterThan(1);
    assertThat(checked(around, "broken.example", LONG)).contains("not found");
    assertThat(checked(around, "broken.example", LONG)).contains("not found");
  }

  private List<InetAddress> found(String host, AtomicInteger asked) {
    if (host.startsWith("broken")) {
      throw new IllegalStateException("no name server");
    }
    if (host.startsWith("dead")) {
      asked.incrementAndGet();
      try {
        over.await();
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
    return List.of();
  }

  private static String checked(Surroundings around, String host, Duration patience) {
    URI url = URI.create("http://" + host + "/fhir");
    try {
      around.check(Target.of(url), url, Deadline.in(patience));
      return "";
    } catch (Trouble e) {
      return e.reason();
    }
  }
}
