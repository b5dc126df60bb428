package org.intercusp.exchange;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.intercusp.exchange.Schedule.Step;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;

/** Lets a schedule happen to two senders, waits for the end, and looks at what the server holds. */
final class ScheduleRun {

  /** What came of it; no faults is what is wanted. */
  record Result(
      Schedule schedule, int mishaps, int kills, int attempts, List<String> held, Findings found) {

    List<String> faults() {
      return found.all();
    }
  }

  private static final Duration PATIENCE = Duration.ofMinutes(3);

  /** Longer than a delivery waits on its own: only a server asks for that. */
  private static final Duration ASKED_FOR = Duration.ofMinutes(1);

  private final Schedule schedule;
  private final Senders senders;
  private final Hospital hospital;
  private final String mark;
  private final List<String> held = new ArrayList<>();
  private Duration offset = Duration.ZERO;

  ScheduleRun(Schedule schedule, Senders senders) {
    this.schedule = schedule;
    this.senders = senders;
    this.hospital = new Hospital(schedule, senders.patience(), senders::kill);
    this.mark = "s" + schedule.seed();
  }

  Result run() throws Exception {
    senders.serve(hospital);
    for (Step step : schedule.steps()) {
      happen(step);
    }
    set(Duration.ZERO);
    List<Delivery> ended = ended();
    hospital.calm();
    Findings found = Findings.of(schedule, hospital.records(), ended, senders.target());
    int attempts = ended.stream().mapToInt(Delivery::attempts).sum();
    return new Result(schedule, hospital.happened(), hospital.kills(), attempts, held, found);
  }

  private void happen(Step step) throws Exception {
    if (step instanceof Step.Submit submit) {
      senders.submit(submit);
    } else if (step instanceof Step.Pause pause) {
      Thread.sleep(pause.length().toMillis());
    } else if (step instanceof Step.Jump jump) {
      senders.jump(jump.instance(), jump.offset());
    } else if (step instanceof Step.Outage outage) {
      hospital.down(outage.length());
    }
  }

  private void set(Duration to) throws Exception {
    offset = to;
    senders.jump(0, to);
    senders.jump(1, to);
  }

  private List<Delivery> ended() throws Exception {
    long end = System.nanoTime() + PATIENCE.toNanos();
    while (true) {
      List<Delivery> all = senders.deliveries(mark);
      List<Delivery> open = all.stream().filter(one -> !one.state().isFinal()).toList();
      if (open.isEmpty() && !again(all)) {
        return all;
      }
      if (System.nanoTime() > end) {
        return all;
      }
      passTime(open);
      Thread.sleep(20);
    }
  }

  /** A person reads why a delivery is held, and has it tried again. */
  private boolean again(List<Delivery> all) throws Exception {
    boolean any = false;
    for (Delivery one : newest(all).values()) {
      if (one.state() == DeliveryState.HELD && held.size() < 5) {
        held.add(one.reason());
        senders.retry(one.id());
        any = true;
      }
    }
    return any;
  }

  static Map<String, Delivery> newest(List<Delivery> all) {
    Map<String, Delivery> newest = new HashMap<>();
    for (Delivery one : all) {
      newest.merge(one.treatment().treatment(), one, (a, b) -> a.version() > b.version() ? a : b);
    }
    return newest;
  }

  // What waits because the server asked for a day waits no day of the test's.
  private void passTime(List<Delivery> open) throws Exception {
    Instant now = Instant.now().plus(offset);
    boolean all =
        open.stream()
            .allMatch(
                one ->
                    one.dueAt() != null
                        && one.changedAt().isBefore(now.plusSeconds(5))
                        && one.dueAt().isAfter(one.changedAt().plus(ASKED_FOR)));
    if (all && !open.isEmpty()) {
      Instant due = open.stream().map(Delivery::dueAt).min(Comparator.naturalOrder()).orElseThrow();
      if (due.isAfter(now)) {
        set(offset.plus(Duration.between(now, due)).plusSeconds(1));
      }
    }
  }

  /** What people were told of the deliveries that were held. */
  static Set<String> words(List<Result> results) {
    Set<String> words = new TreeSet<>();
    results.forEach(one -> words.addAll(one.held()));
    return words;
  }
}
