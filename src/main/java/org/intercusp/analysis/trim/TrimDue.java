package org.intercusp.analysis.trim;

import java.time.LocalDate;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.measure.Length;
import org.intercusp.treatment.ReviewKind;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

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
    return trimmed
        .plan(TrimmingPlan.RATE)
        .map(plan -> of(trimmed, trimmed.stage().orElseThrow(), plan, on));
  }

  private static TrimDue of(Trimmed trimmed, Stage stage, TrimmingPlan plan, LocalDate on) {
    int done = done(trimmed, stage, on);
    if (done >= plan.visits().size()) {
      return not(left(plan, done), "the molars should meet by now");
    }
    TrimmingPlan.Visit next = plan.visits().get(done);
    String visit = "visit " + (done + 1) + " of the trimming plan";
    TrimDue planned = new TrimDue(true, next.trim(), left(plan, done), visit);
    return switch (trimmed.when(on)) {
      case NEVER -> not(planned.block(), When.NEVER.shown());
      case AFTER_OVERJET_GOAL ->
          goalMet(trimmed.treatment(), stage, on)
              ? planned
              : not(planned.block(), "not before the overjet goal is reached");
      case FROM_SECOND_REVIEW -> planned;
    };
  }

  private static TrimDue not(Length left, String why) {
    return new TrimDue(false, Length.ZERO, left, why);
  }

  /** Planned visits of the stage since the fitting: an urgent one takes no place in the plan. */
  private static int done(Trimmed trimmed, Stage stage, LocalDate on) {
    LocalDate fitted = trimmed.since();
    return Math.toIntExact(
        trimmed.treatment().reviews().stream()
            .filter(each -> each.stageId().equals(stage.id()))
            .filter(each -> each.kind() == ReviewKind.PLANNED)
            .filter(each -> !each.date().isAfter(on))
            .filter(each -> fitted == null || !each.date().isBefore(fitted))
            .count());
  }

  private static Length left(TrimmingPlan plan, int done) {
    return done == 0
        ? plan.visits().get(0).block().plus(plan.visits().get(0).trim())
        : plan.visits().get(Math.min(done, plan.visits().size()) - 1).block();
  }

  private static boolean goalMet(Treatment treatment, Stage stage, LocalDate on) {
    return treatment
        .lastReview(on)
        .flatMap(last -> OverjetGoal.of(stage).filter(goal -> goal.isMetBy(last.overjet())))
        .isPresent();
  }
}
