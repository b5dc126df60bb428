package org.intercusp.summary.drawing;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.Optional;
import org.intercusp.analysis.trim.TrimmingPlan;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/**
 * What the plan takes off each upper block at the next visit, in mm, and why so much. The plan is
 * the one of {@link TrimmingPlan}; an amount is zero where nothing is to be trimmed.
 *
 * @param amount off the occlusodistal face of each upper block
 * @param block height left at the molars before it, as the plan reckons it
 * @param why in a few words
 */
public record NextTrim(Length amount, Length block, String why) {

  /** Empty where the appliance has no stage that trims, or no molar clearance was registered. */
  public static Optional<NextTrim> of(Treatment treatment, Appliance appliance, LocalDate on) {
    Optional<Stage> stage =
        treatment.stages().stream()
            .filter(each -> appliance.id().equals(each.applianceId()) && each.trimming() != null)
            .findFirst();
    Optional<Length> clearance =
        bite(treatment, appliance).flatMap(bite -> Optional.ofNullable(bite.molarClearance()));
    if (stage.isEmpty() || clearance.isEmpty()) {
      return Optional.empty();
    }
    return of(treatment, stage.orElseThrow(), clearance.orElseThrow(), on);
  }

  private static Optional<NextTrim> of(
      Treatment treatment, Stage stage, Length clearance, LocalDate on) {
    Stage.Trimming trimming = stage.trimming();
    if (trimming == null || stage.reviewWeeks() < 1) {
      return Optional.empty();
    }
    TrimmingPlan plan =
        TrimmingPlan.of(
            clearance,
            new TrimmingPlan.Terms(
                trimming.perVisit(),
                trimming.fromReview(),
                stage.reviewWeeks(),
                TrimmingPlan.RATE));
    int done =
        Math.toIntExact(
            treatment.reviews().stream()
                .filter(each -> each.stageId().equals(stage.id()) && !each.date().isAfter(on))
                .count());
    if (done >= plan.visits().size()) {
      return Optional.of(
          new NextTrim(Length.ZERO, left(plan, done), "the molars should meet by now"));
    }
    return Optional.of(judged(treatment, stage, plan, done, on));
  }

  private static NextTrim judged(
      Treatment treatment, Stage stage, TrimmingPlan plan, int done, LocalDate on) {
    Length left = left(plan, done);
    return switch (TrimmingPlan.When.of(treatment.diagnosis().overbite())) {
      case NEVER -> new NextTrim(Length.ZERO, left, "never: keep all posterior contact");
      case AFTER_OVERJET_GOAL ->
          goalMet(treatment, stage, on)
              ? planned(plan, done, left)
              : new NextTrim(Length.ZERO, left, "not before the overjet goal is reached");
      case FROM_SECOND_REVIEW -> planned(plan, done, left);
    };
  }

  private static NextTrim planned(TrimmingPlan plan, int done, Length left) {
    TrimmingPlan.Visit next = plan.visits().get(done);
    return new NextTrim(next.trim(), left, "visit " + (done + 1) + " of the trimming plan");
  }

  private static Length left(TrimmingPlan plan, int done) {
    return done == 0
        ? plan.visits().get(0).block().plus(plan.visits().get(0).trim())
        : plan.visits().get(Math.min(done, plan.visits().size()) - 1).block();
  }

  private static boolean goalMet(Treatment treatment, Stage stage, LocalDate on) {
    Optional<Review> last =
        treatment.reviews().stream()
            .filter(each -> !each.date().isAfter(on))
            .max(Comparator.comparing(Review::date));
    return last.isPresent()
        && stage.goals().stream()
            .filter(goal -> goal.measure() == Stage.Goal.Measure.OVERJET)
            .anyMatch(goal -> goal.isMetBy(last.orElseThrow().overjet()));
  }

  static Optional<Bite> bite(Treatment treatment, Appliance appliance) {
    return treatment.bites().stream()
        .filter(bite -> bite.id().equals(appliance.biteId()))
        .findFirst();
  }
}
