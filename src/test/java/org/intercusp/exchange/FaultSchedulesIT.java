package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import org.intercusp.archive.Databases;
import org.junit.jupiter.api.Test;

/**
 * Schedules of faults, each drawn from a seed: after each the server's own history holds every
 * treatment once, with its newest content. {@code -Dschedule.seed=N} lets one of them happen again.
 */
class FaultSchedulesIT {

  private static final int STATIONS = 6;

  @Test
  void sixty() throws Exception {
    Long seed = Long.getLong("schedule.seed");
    check(seed == null ? run(1, Integer.getInteger("schedule.count", 50), STATIONS) : run(seed, 1, 1));
  }

  private static List<ScheduleRun.Result> run(long first, int count, int stations)
      throws Exception {
    AtomicLong next = new AtomicLong(first);
    List<Future<List<ScheduleRun.Result>>> all = new ArrayList<>();
    ExecutorService executor = Executors.newFixedThreadPool(stations);
    for (int i = 0; i < stations; i++) {
      Databases kind = i % 3 == 2 ? Databases.POSTGRESQL : Databases.H2;
      Supplier<Senders> senders = () -> new TwoInstances(kind.fresh());
      all.add(executor.submit(() -> station(senders, next, first + count)));
    }
    List<ScheduleRun.Result> results = new ArrayList<>();
    for (Future<List<ScheduleRun.Result>> one : all) {
      results.addAll(one.get());
    }
    executor.shutdown();
    return results;
  }

  private static List<ScheduleRun.Result> station(
      Supplier<Senders> make, AtomicLong next, long end) throws Exception {
    List<ScheduleRun.Result> results = new ArrayList<>();
    try (Senders senders = make.get()) {
      while (true) {
        long seed = next.getAndIncrement();
        if (seed >= end) {
          return results;
        }
        results.add(new ScheduleRun(Schedule.of(seed), senders).run());
      }
    }
  }

  private static void check(List<ScheduleRun.Result> results) {
    List<String> faults = new ArrayList<>();
    for (ScheduleRun.Result one : results) {
      if (!one.faults().isEmpty()) {
        Schedule what = one.schedule();
        faults.add(
            "schedule.seed=%d (%s; writes %s, looks %s): %s"
                .formatted(
                    what.seed(), what.manner(), what.writes(), what.reads(), one.faults()));
      }
    }
    System.out.printf(
        "%d schedules, %d mishaps, %d attempts, held: %s%n",
        results.size(),
        results.stream().mapToInt(ScheduleRun.Result::mishaps).sum(),
        results.stream().mapToInt(ScheduleRun.Result::attempts).sum(),
        ScheduleRun.words(results));
    faults.forEach(System.out::println);
    assertThat(faults).isEmpty();
  }
}
