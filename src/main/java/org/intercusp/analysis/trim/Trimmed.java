package org.intercusp.analysis.trim;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.InPlaceOf;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

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

  /**
   * The stages that trim it, in their order; the plan goes on from one to the next. Where none
   * names it, those of what it was made in place of.
   */
  List<Stage> stages() {
    for (Appliance each : InPlaceOf.line(treatment, appliance)) {
      List<Stage> named =
          treatment.stages().stream()
              .filter(stage -> each.id().equals(stage.applianceId()))
              .toList();
      if (!named.isEmpty()) {
        return named.stream()
            .filter(stage -> stage.trimming() != null && stage.reviewWeeks() >= 1)
            .toList();
      }
    }
    return List.of();
  }

  /**
   * The day its plan counts from. One made in place of another to the same bite goes on with the
   * plan of that one, since it is made to the blocks as they were (common practice, no source).
   */
  @Nullable LocalDate since() {
    LocalDate since = appliance.fittedOn();
    for (Appliance each : InPlaceOf.line(treatment, appliance)) {
      if (!Objects.equals(each.biteId(), appliance.biteId())) {
        break;
      }
      LocalDate fitted = each.fittedOn();
      if (fitted != null && (since == null || fitted.isBefore(since))) {
        since = fitted;
      }
    }
    return since;
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
