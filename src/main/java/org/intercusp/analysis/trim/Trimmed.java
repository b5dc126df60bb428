package org.intercusp.analysis.trim;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/**
 * An appliance whose blocks may be trimmed: whether, when, and by which plan.
 *
 * @param little overbite at which, and below, they are never trimmed
 */
public record Trimmed(Treatment treatment, Appliance appliance, Length little) {

  /** By the overbite before the appliance: the smaller of the diagnosis and of its bite. */
  public When atStart() {
    Length diagnosed = treatment.diagnosis().overbite();
    return When.of(
        bite()
            .map(Bite::overbiteHabitual)
            .filter(registered -> registered.isBelow(diagnosed))
            .orElse(diagnosed),
        little);
  }

  /**
   * As it stands on a day. Once the overbite is down to where blocks are never trimmed, trimming
   * ends. A deep bite that has come below 4 mm under way is trimmed on: that is what the plan is
   * for, and it ends when the molars meet.
   */
  public When when(LocalDate on) {
    boolean never =
        treatment
            .lastReview(on)
            .map(Review::overbite)
            .filter(overbite -> When.of(overbite, little) == When.NEVER)
            .isPresent();
    return never ? When.NEVER : atStart();
  }

  /**
   * The plan from the molar clearance of its bite and the terms of its first stage that trims,
   * counted from the fitting or from the overjet goal, as {@link #atStart} says.
   */
  public Reckoned<TrimmingPlan> plan(Length rate) {
    Length clearance = bite().map(Bite::molarClearance).orElse(null);
    if (clearance == null || clearance.value().signum() <= 0) {
      return Reckoned.lacking("no molarClearance was registered");
    }
    return stages().stream()
        .findFirst()
        .map(stage -> Reckoned.known(TrimmingPlan.of(clearance, terms(stage, rate))))
        .orElseGet(() -> Reckoned.lacking("no stage with this appliance plans trimming"));
  }

  private TrimmingPlan.Terms terms(Stage stage, Length rate) {
    Stage.Trimming trimming = Objects.requireNonNull(stage.trimming());
    return atStart() == When.AFTER_OVERJET_GOAL
        ? TrimmingPlan.Terms.afterGoal(trimming.perVisit(), stage.reviewWeeks(), rate)
        : new TrimmingPlan.Terms(
            trimming.perVisit(), trimming.fromReview(), stage.reviewWeeks(), rate);
  }

  /** Whether the stage asks for more at a visit than the plan takes. */
  public boolean asksTooMuch() {
    return stages().stream()
        .findFirst()
        .map(Stage::trimming)
        .filter(trimming -> trimming.perVisit().isAbove(TrimmingPlan.MOST))
        .isPresent();
  }

  /** The stages that trim it, in their order; the plan goes on from one to the next. */
  List<Stage> stages() {
    return treatment.stages().stream()
        .filter(each -> appliance.id().equals(each.applianceId()))
        .filter(each -> each.trimming() != null && each.reviewWeeks() >= 1)
        .toList();
  }

  /** The bite it is built to, where the record holds it. */
  public Optional<Bite> bite() {
    return bite(treatment, appliance);
  }

  /** The bite an appliance is built to, where the record holds it. */
  public static Optional<Bite> bite(Treatment treatment, Appliance appliance) {
    return treatment.bites().stream()
        .filter(bite -> bite.id().equals(appliance.biteId()))
        .findFirst();
  }
}
