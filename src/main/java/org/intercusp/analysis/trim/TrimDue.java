package org.intercusp.analysis.trim;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.ReviewKind;
import org.intercusp.treatment.Stage;
import org.jspecify.annotations.Nullable;

/**
 * What comes off each upper block at the next visit, the same at every door.
 *
 * @param due whether the plan is carried on; else the amount is zero and the words say why
 * @param amount off the occlusodistal face of each upper block; may be zero at a visit of the plan
 * @param block height left at the molars before it, as the plan reckons it
 * @param why in a few words
 */
public record TrimDue(boolean due, Length amount, Length block, String why) {

  /** Lacking where the appliance has no stage that trims, or no molar clearance was registered. */
  public static Reckoned<TrimDue> of(Trimmed trimmed, LocalDate on) {
    return trimmed.plan(TrimmingPlan.RATE).map(plan -> of(trimmed, plan, on));
  }

  private static TrimDue of(Trimmed trimmed, TrimmingPlan plan, LocalDate on) {
    List<Review> visits = visits(trimmed, on);
    boolean waits = trimmed.atStart() == When.AFTER_OVERJET_GOAL;
    int before = waits ? untilGoal(trimmed, visits) : 0;
    int done = visits.size() - before;
    return switch (trimmed.when(on)) {
      case NEVER -> not(left(plan, done), When.NEVER.shown());
      case AFTER_OVERJET_GOAL -> afterGoal(trimmed, plan, visits, done, on);
      case FROM_SECOND_REVIEW -> planned(plan, done);
    };
  }

  /** Until the goal is met nothing is trimmed, and the plan has not begun. */
  private static TrimDue afterGoal(
      Trimmed trimmed, TrimmingPlan plan, List<Review> visits, int done, LocalDate on) {
    Review last = trimmed.treatment().lastReview(on).orElse(null);
    if (goals(trimmed, last == null ? null : last.stageId()).isEmpty()) {
      return not(left(plan, done), "no overjet goal says when to begin");
    }
    if (!goalMet(trimmed, last)) {
      return not(left(plan, done), "not before the overjet goal is reached");
    }
    int first = fromReview(trimmed);
    return visits.size() + 1 < first
        ? not(left(plan, 0), "not before review " + first)
        : planned(plan, done);
  }

  private static int fromReview(Trimmed trimmed) {
    return trimmed.stages().stream()
        .findFirst()
        .map(stage -> Objects.requireNonNull(stage.trimming()).fromReview())
        .orElse(1);
  }

  private static TrimDue planned(TrimmingPlan plan, int done) {
    if (done >= plan.visits().size()) {
      return not(left(plan, done), "the molars should meet by now");
    }
    TrimmingPlan.Visit next = plan.visits().get(done);
    String visit = "visit " + (done + 1) + " of the trimming plan";
    return new TrimDue(true, next.trim(), left(plan, done), visit);
  }

  private static TrimDue not(Length left, String why) {
    return new TrimDue(false, Length.ZERO, left, why);
  }

  /** Planned visits of its stages since the fitting: an urgent one takes no place in the plan. */
  private static List<Review> visits(Trimmed trimmed, LocalDate on) {
    LocalDate fitted = trimmed.appliance().fittedOn();
    Set<String> stages = trimmed.stages().stream().map(Stage::id).collect(Collectors.toSet());
    return trimmed.treatment().reviews().stream()
        .filter(each -> stages.contains(each.stageId()))
        .filter(each -> each.kind() == ReviewKind.PLANNED)
        .filter(each -> !each.date().isAfter(on))
        .filter(each -> fitted == null || !each.date().isBefore(fitted))
        .sorted(Comparator.comparing(Review::date))
        .toList();
  }

  /** How many visits there were before the plan begins: up to the one that met the goal first. */
  private static int untilGoal(Trimmed trimmed, List<Review> visits) {
    int unmet = (int) visits.stream().takeWhile(one -> !goalMet(trimmed, one)).count();
    return Math.min(visits.size(), Math.max(unmet + 1, fromReview(trimmed) - 1));
  }

  private static Length left(TrimmingPlan plan, int done) {
    return done == 0
        ? plan.visits().get(0).block().plus(plan.visits().get(0).trim())
        : plan.visits().get(Math.min(done, plan.visits().size()) - 1).block();
  }

  private static boolean goalMet(Trimmed trimmed, @Nullable Review review) {
    if (review == null) {
      return false;
    }
    List<Stage.Goal> goals = goals(trimmed, review.stageId());
    return !goals.isEmpty() && goals.stream().allMatch(goal -> goal.isMetBy(review.overjet()));
  }

  /** Of the stage that trims and is under way; of the last one that trims after it. */
  private static List<Stage.Goal> goals(Trimmed trimmed, @Nullable String stage) {
    List<Stage> stages = trimmed.stages();
    return stages.stream()
        .filter(each -> each.id().equals(stage))
        .findFirst()
        .or(() -> stages.stream().reduce((first, second) -> second))
        .stream()
        .flatMap(each -> each.goals().stream())
        .filter(goal -> goal.measure() == Stage.Goal.Measure.OVERJET)
        .toList();
  }
}
