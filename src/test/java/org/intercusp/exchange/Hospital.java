package org.intercusp.exchange;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A records server to which a schedule's mishaps happen. */
final class Hospital {

  private final KeptRecords records;
  private final Schedule schedule;
  private final Duration patience;
  private final Consumer<String> killer;
  private final Deque<Mishap> writes;
  private final AtomicInteger reading = new AtomicInteger();
  private final AtomicInteger underWay = new AtomicInteger();
  private final AtomicInteger happened = new AtomicInteger();
  private final AtomicInteger kills = new AtomicInteger();
  private volatile long downUntil = System.nanoTime();
  private volatile boolean calm;

  /**
   * A hospital.
   *
   * @param patience how long a sender waits at most for a whole call
   * @param killer kills the process that shows this authorization
   */
  Hospital(Schedule schedule, Duration patience, Consumer<String> killer) {
    this.records = new KeptRecords(schedule.manner());
    this.schedule = schedule;
    this.patience = patience;
    this.killer = killer;
    this.writes = new ArrayDeque<>(schedule.writes());
  }

  KeptRecords records() {
    return records;
  }

  void down(Duration length) {
    downUntil = System.nanoTime() + length.toNanos();
  }

  /** Nothing goes wrong from now on; waits until what is under way has come to its end. */
  void calm() throws InterruptedException {
    calm = true;
    while (underWay.get() > 0) {
      Thread.sleep(10);
    }
  }

  /** How many mishaps came about. */
  int happened() {
    return happened.get();
  }

  int kills() {
    return kills.get();
  }

  Said answer(Asked asked) throws InterruptedException {
    underWay.incrementAndGet();
    try {
      if (!calm && System.nanoTime() - downUntil < 0) {
        return Said.nothing();
      }
      Mishap mishap = next(asked);
      if (mishap == null) {
        return records.answer(asked);
      }
      happened.incrementAndGet();
      return befallen(asked, mishap);
    } finally {
      underWay.decrementAndGet();
    }
  }

  private synchronized @Nullable Mishap next(Asked asked) {
    if (calm) {
      return null;
    }
    return asked.isWrite() ? writes.poll() : schedule.reads().get(reading.getAndIncrement());
  }

  private Said befallen(Asked asked, Mishap mishap) throws InterruptedException {
    long begin = System.nanoTime();
    if (mishap == Mishap.HALF) {
      return half(asked);
    }
    if (mishap.isDoneFirst()) {
      records.answer(asked);
    }
    if (mishap.kills()) {
      kills.incrementAndGet();
      killer.accept(asked.authorization());
    }
    if (mishap.isSilent()) {
      Thread.sleep(patience.plusMillis(200).toMillis());
    }
    if (mishap == Mishap.GATEWAY_LATE || mishap == Mishap.KILLED_LATE) {
      later(asked, begin);
    } else if (mishap.isDoneLate()) {
      late(asked, begin);
    }
    return mishap.said();
  }

  private void later(Asked asked, long begin) {
    underWay.incrementAndGet();
    Thread thread =
        new Thread(
            () -> {
              try {
                Thread.sleep(400);
                late(asked, begin);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              } finally {
                underWay.decrementAndGet();
              }
            });
    thread.setDaemon(true);
    thread.start();
  }

  /** A server works on nothing for longer than this, however busy the machine of the test is. */
  private void late(Asked asked, long begin) {
    if (System.nanoTime() - begin < patience.plusMillis(1_000).toNanos()) {
      records.answer(asked);
    }
  }

  private Said half(Asked asked) {
    if (!asked.path().endsWith("/fhir")) {
      return Said.of(200, "text/html", "<html>Please wait</html>");
    }
    if (schedule.manner() == KeptRecords.Manner.BATCH) {
      records.answer(asked.withBody(firstHalf(asked.body())));
    }
    return Said.of(
        200,
        FaultyServer.FHIR,
        "{\"resourceType\":\"Bundle\",\"type\":\"transaction-response\",\"entry\":"
            + "[{\"response\":{\"status\":\"503 Busy\"}}]}");
  }

  private static String firstHalf(String body) {
    ObjectNode bundle = (ObjectNode) new JsonMapper().readTree(body);
    ArrayNode entries = (ArrayNode) bundle.path("entry");
    for (int i = entries.size() / 2; i < entries.size(); ) {
      entries.remove(i);
    }
    return bundle.toString();
  }
}
