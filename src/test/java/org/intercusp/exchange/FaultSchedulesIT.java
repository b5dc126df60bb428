package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import com.zaxxer.hikari.HikariDataSource;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.intercusp.archive.Databases;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Schedules of faults, each drawn from a seed: after each the server's own history holds every
 * treatment once, with its newest content, and every delivery has come to its end. {@code
 * -Dschedule.seed=N} lets one of them happen again, {@code -Dschedule.kind=file} or {@code server}
 * with the process killed, on a database file or a database server.
 */
class FaultSchedulesIT {

  private static final int STATIONS = 6;

  /** Seeds of schedules with kills begin here. */
  private static final long KILLING = 1_000_000;

  @TempDir Path folder;

  /** Makes the senders of a station. */
  private interface Making {
    Senders make() throws Exception;
  }

  @Test
  void sixty() throws Exception {
    Long seed = Long.getLong("schedule.seed");
    if (seed != null) {
      check(List.of(again(seed, System.getProperty("schedule.kind", "here"))));
      return;
    }
    check(run(50, 10, STATIONS));
  }

  @Test
  @Tag("long")
  void aThousand() throws Exception {
    List<ScheduleRun.Result> results = run(890, 110, STATIONS);
    check(results);
    assertThat(results).hasSizeGreaterThanOrEqualTo(1_000);
    assertThat(kills(results)).isGreaterThanOrEqualTo(100);
  }

  @Test
  void theSameSchedulesMakeDuplicatesAndLossesWhereWritesAreSimplyTriedAgain() throws Exception {
    ExecutorService executor = Executors.newFixedThreadPool(STATIONS);
    List<Future<Findings>> all = new ArrayList<>();
    for (long seed = 1; seed <= 12; seed++) {
      Schedule schedule = Schedule.of(seed);
      all.add(executor.submit(() -> new NaiveSender().run(schedule)));
    }
    int twice = 0;
    int lost = 0;
    for (Future<Findings> one : all) {
      twice += one.get().duplicates().isEmpty() ? 0 : 1;
      lost += one.get().lost().isEmpty() ? 0 : 1;
    }
    executor.shutdown();
    System.out.printf(
        "Tried again without looking: of 12 schedules %d with duplicates, %d with losses%n",
        twice, lost);
    assertThat(twice).isPositive();
    assertThat(lost).isPositive();
  }

  private ScheduleRun.Result again(long seed, String kind) throws Exception {
    Schedule schedule = kind.equals("here") ? Schedule.of(seed) : Schedule.killing(seed);
    try (Senders senders = kind.equals("here") ? here(Databases.H2) : processes(kind)) {
      return new ScheduleRun(schedule, senders).run();
    }
  }

  private static Senders here(Databases kind) {
    return new TwoInstances(kind.fresh());
  }

  private Senders processes(String kind) throws Exception {
    if (kind.equals("file")) {
      return new WorkerProcesses(folder.resolve("deliveries").toString());
    }
    HikariDataSource server = (HikariDataSource) Databases.POSTGRESQL.fresh();
    server.close();
    return new WorkerProcesses(server.getJdbcUrl());
  }

  private List<ScheduleRun.Result> run(int plain, int killing, int stations) throws Exception {
    ExecutorService executor = Executors.newCachedThreadPool();
    List<Future<List<ScheduleRun.Result>>> all = new ArrayList<>();
    AtomicLong next = new AtomicLong(1);
    for (int i = 0; i < stations; i++) {
      Databases kind = i % 3 == 2 ? Databases.POSTGRESQL : Databases.H2;
      all.add(executor.submit(station(() -> here(kind), next, plain)));
    }
    AtomicInteger open = new AtomicInteger(killing);
    for (String kind : List.of("file", "server")) {
      all.add(executor.submit(kills(() -> processes(kind), kind.equals("file") ? 0 : 1, open)));
    }
    List<ScheduleRun.Result> results = new ArrayList<>();
    for (Future<List<ScheduleRun.Result>> one : all) {
      results.addAll(one.get());
    }
    executor.shutdown();
    return results;
  }

  private static Callable<List<ScheduleRun.Result>> station(
      Making making, AtomicLong next, long last) {
    return () -> {
      List<ScheduleRun.Result> results = new ArrayList<>();
      try (Senders senders = making.make()) {
        for (long seed = next.getAndIncrement(); seed <= last; seed = next.getAndIncrement()) {
          ScheduleRun.Result one = new ScheduleRun(Schedule.of(seed), senders).run();
          tell(one);
          results.add(one);
        }
        return results;
      }
    };
  }

  /** Goes on until so many have been killed, whether or not a schedule came so far. */
  private static Callable<List<ScheduleRun.Result>> kills(
      Making making, long offset, AtomicInteger open) {
    return () -> {
      List<ScheduleRun.Result> results = new ArrayList<>();
      try (Senders senders = making.make()) {
        for (long seed = KILLING + offset; open.get() > 0; seed += 2) {
          ScheduleRun.Result one = new ScheduleRun(Schedule.killing(seed), senders).run();
          tell(one);
          open.addAndGet(-one.kills());
          results.add(one);
        }
        return results;
      }
    };
  }

  /** At once, so that a long run shows what it has found. */
  private static void tell(ScheduleRun.Result one) {
    if (!one.faults().isEmpty()) {
      System.out.println(one.schedule().words() + ": " + one.faults());
    }
  }

  private static int kills(List<ScheduleRun.Result> results) {
    return results.stream().mapToInt(ScheduleRun.Result::kills).sum();
  }

  private static void check(List<ScheduleRun.Result> results) {
    List<String> faults = new ArrayList<>();
    for (ScheduleRun.Result one : results) {
      if (!one.faults().isEmpty()) {
        faults.add(one.schedule().words() + ": " + one.faults());
      }
    }
    System.out.printf(
        "%d schedules, %d mishaps, %d processes killed, %d attempts;"
            + " twice %d, lost or old %d, held %d: %s%n",
        results.size(),
        results.stream().mapToInt(ScheduleRun.Result::mishaps).sum(),
        kills(results),
        results.stream().mapToInt(ScheduleRun.Result::attempts).sum(),
        results.stream().filter(one -> !one.found().duplicates().isEmpty()).count(),
        results.stream().filter(one -> !one.found().lost().isEmpty()).count(),
        results.stream().mapToInt(one -> one.held().size()).sum(),
        ScheduleRun.words(results));
    assertThat(faults).isEmpty();
  }
}
