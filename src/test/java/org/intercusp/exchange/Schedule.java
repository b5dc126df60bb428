package org.intercusp.exchange;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.intercusp.exchange.KeptRecords.Manner;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What happens, drawn from a seed: who sends what when, and what goes wrong. The same seed gives
 * the same schedule.
 *
 * @param writes what befalls the writes, in the order in which they come
 * @param reads what befalls a look, by its number
 */
record Schedule(
    long seed, Manner manner, List<Step> steps, List<Mishap> writes, Map<Integer, Mishap> reads) {

  /** Something that happens on this side, or to the way between. */
  sealed interface Step {
    /** A treatment, or its next version, is taken and queued. */
    record Submit(String treatment, ObjectNode file, int version) implements Step {}

    record Pause(Duration length) implements Step {}

    /** The clock of one of the instances jumps to so far from the true time. */
    record Jump(int instance, Duration offset) implements Step {}

    /** Nobody reaches the server for a while. */
    record Outage(Duration length) implements Step {}
  }

  private static final int MOST_MISHAPS = 5;

  /** A schedule without kills. */
  static Schedule of(long seed) {
    return of(seed, Mishap.WRITES, false);
  }

  /** A schedule in which a process that sends is killed, at a look or a write. */
  static Schedule killing(long seed) {
    return of(seed, Mishap.WRITES, true);
  }

  private static Schedule of(long seed, List<Mishap> mishaps, boolean kill) {
    SplittableRandom random = new SplittableRandom(seed);
    Manner manner = one(random, List.of(Manner.values()));
    List<Step> steps = steps(seed, random);
    List<Mishap> writes = new ArrayList<>();
    for (int i = random.nextInt(MOST_MISHAPS + 1); i > 0; i--) {
      writes.add(one(random, mishaps));
    }
    // One look asks some thirty questions, at once where the server takes that.
    int looks = manner.takesBatches() ? 20 : 120;
    Map<Integer, Mishap> reads = new TreeMap<>();
    for (int i = random.nextInt(3); i > 0; i--) {
      reads.put(random.nextInt(looks), one(random, Mishap.READS));
    }
    if (kill) {
      // What stalls is for the others: it takes as long as a call may.
      writes.removeIf(Mishap::isSilent);
      reads.values().removeIf(Mishap::isSilent);
      Mishap how = one(random, Mishap.KILLS);
      if (random.nextInt(4) == 0) {
        reads.put(random.nextInt(looks / 4), Mishap.KILLED);
      } else {
        // One of the first two writes, which mostly come about.
        writes.add(random.nextInt(Math.min(1, writes.size()) + 1), how);
      }
    }
    return new Schedule(seed, manner, steps, List.copyOf(writes), Map.copyOf(reads));
  }

  private static List<Step> steps(long seed, SplittableRandom random) {
    List<Step> steps = new ArrayList<>();
    Map<String, ObjectNode> files = new HashMap<>();
    Map<String, Integer> versions = new HashMap<>();
    int treatments = 1 + random.nextInt(3);
    int submissions = treatments + random.nextInt(4);
    for (int i = 0; i < submissions; i++) {
      int number = i < treatments ? i : random.nextInt(treatments);
      String treatment = "T" + number;
      // The second is of the first one's patient, the third of another one of the same clinic.
      String patient = number < 2 ? "p0" : "p1";
      ObjectNode before = files.get(treatment);
      ObjectNode file =
          before == null
              ? Parcels.brief("s" + seed, patient, treatment)
              : changed(before, random, i);
      files.put(treatment, file);
      int version = versions.merge(treatment, 1, Integer::sum);
      steps.add(new Step.Submit(treatment, file, version));
      between(steps, random);
    }
    return steps;
  }

  private static void between(List<Step> steps, SplittableRandom random) {
    switch (random.nextInt(6)) {
      case 0, 1 -> steps.add(new Step.Pause(Duration.ofMillis(random.nextInt(400))));
      case 2 -> steps.add(new Step.Pause(Duration.ofMillis(random.nextInt(2_000))));
      case 3 -> {
        long minutes = (random.nextBoolean() ? 1 : -1) * (1L << random.nextInt(17));
        steps.add(new Step.Jump(random.nextInt(2), Duration.ofMinutes(minutes)));
      }
      case 4 -> steps.add(new Step.Outage(Duration.ofMillis(random.nextInt(500))));
      default -> {
        // At once.
      }
    }
  }

  /** A correction: a value, a review that is there no longer or again, a note. */
  private static ObjectNode changed(ObjectNode before, SplittableRandom random, int number) {
    int kind = random.nextInt(3);
    return Parcels.changed(
        before,
        file -> {
          ArrayNode reviews = (ArrayNode) file.path("reviews");
          if (kind == 0 || reviews.isEmpty()) {
            ((ObjectNode) file.path("diagnosis")).put("overjet", 5 + number);
          }
          if (kind == 1 && !reviews.isEmpty()) {
            reviews.remove(0);
          } else if (kind != 0 && reviews.isEmpty()) {
            reviews.addAll((ArrayNode) Parcels.brief("x", "x", "x").path("reviews"));
          } else if (kind == 2) {
            ((ObjectNode) reviews.get(0)).put("note", "Seen again, " + number);
          }
        });
  }

  private static <T> T one(SplittableRandom random, List<T> all) {
    return all.get(random.nextInt(all.size()));
  }

  /** The newest version of each treatment. */
  Map<String, ObjectNode> newest() {
    Map<String, ObjectNode> newest = new TreeMap<>();
    for (Step step : steps) {
      if (step instanceof Step.Submit submit) {
        newest.put(submit.treatment(), submit.file());
      }
    }
    return newest;
  }

  /** How it is told in a failure: with the seed by which it happens again. */
  String words() {
    return "schedule.seed=%d (%s; writes %s, looks %s)".formatted(seed, manner, writes, reads);
  }
}
