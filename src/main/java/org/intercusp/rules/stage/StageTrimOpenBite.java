package org.intercusp.rules.stage;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.CurrentStage;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/** Blocks are never trimmed where the bite is open or nearly so. */
final class StageTrimOpenBite implements Rule {

  static final String CODE = "stage-trim-open-bite";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares(
            "the overbite, of the diagnosis, as last measured before the stage and, while it runs and"
                + " the molars do not meet yet, at the last review, where trimming is planned")
        .limit("above 1 mm where trimming is planned", Limit.TRIM_OVERBITE)
        .about(
            "/stages/*/trimming",
            "Bundle.entry.resource.ofType(CarePlan).where(partOf.exists()).activity")
        .remedy("Plan no trimming: keep all posterior contact.")
        .samples(
            Sample.failing(
                "/stages/0/trimming",
                """
                {"/diagnosis/overbite": 1, "/bites/0/overbiteHabitual": 1}"""),
            Sample.passing(
                """
                {"/diagnosis/overbite": 1.5, "/bites/0/overbiteHabitual": 1.5}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    Length limit = about.limits().length(Limit.TRIM_OVERBITE);
    List<Reckoned<StageDates>> dates = StageDates.of(about.treatment());
    for (int i = 0; i < dates.size(); i++) {
      Stage stage = about.treatment().stages().get(i);
      Stage.Trimming trimming = stage.trimming();
      if (trimming == null) {
        continue;
      }
      LocalDate start = dates.get(i).result().map(StageDates::start).orElse(about.day());
      Length overbite = least(smallest(about.treatment(), start), nowIn(about, stage));
      if (!overbite.isAbove(limit)) {
        found
            .error(Pointer.of("stages", i, "trimming"), stage.id())
            .value("overbite", overbite)
            .limit(Limit.TRIM_OVERBITE)
            .keeping("perVisit", trimming.perVisit().value())
            .borderlineWithin(limit.minus(overbite).asDouble(), about.u())
            .says(
                "Trimming is planned with an overbite of %s; it is never done at %s or less."
                    .formatted(Shown.of(overbite), Shown.of(limit)));
      }
    }
  }

  /**
   * The overbite of the last review of the stage the patient is in, where something is left to trim:
   * not once the molars meet, nor after the treatment. Trimming on would open the bite.
   */
  private static Optional<Length> nowIn(Case about, Stage stage) {
    return about.goesOn() && CurrentStage.on(about.treatment(), about.day()).equals(Optional.of(stage))
        ? about
            .treatment()
            .lastReview(about.day())
            .filter(review -> !molarsMeet(review))
            .map(Review::overbite)
        : Optional.empty();
  }

  private static boolean molarsMeet(Review review) {
    BothSides open = review.posteriorOpenBite();
    return open != null && !open.right().isAbove(Length.ZERO) && !open.left().isAbove(Length.ZERO);
  }

  private static Length least(Length one, Optional<Length> other) {
    return other.filter(length -> length.isBelow(one)).orElse(one);
  }

  /** The smaller of the overbite of the diagnosis and the last one measured by the start. */
  private static Length smallest(Treatment treatment, LocalDate start) {
    Length diagnosed = treatment.diagnosis().overbite();
    Length last = diagnosed;
    LocalDate when = LocalDate.MIN;
    for (Bite bite : treatment.bites()) {
      if (!bite.recordedOn().isAfter(start) && !bite.recordedOn().isBefore(when)) {
        last = bite.overbiteHabitual();
        when = bite.recordedOn();
      }
    }
    for (Review review : treatment.reviews()) {
      if (!review.date().isAfter(start) && !review.date().isBefore(when)) {
        last = review.overbite();
        when = review.date();
      }
    }
    return last.isBelow(diagnosed) ? last : diagnosed;
  }
}
