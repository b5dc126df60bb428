package org.intercusp.rules.bite;

import java.time.LocalDate;
import java.util.Comparator;
import org.intercusp.analysis.bite.IntergingivalHeight.Band;
import org.intercusp.analysis.bite.IntergingivalHeight;
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
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Review;

/** The vertical dimension in occlusion: noted at the start, judged when treatment is completed. */
final class BiteHeightOcclusion implements Rule {

  static final String CODE = "bite-height-occlusion";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION, Severity.WARNING)
        .compares(
            "intergingival height in occlusion: both incisor crowns minus the overbite of the bite,"
                + " and of the last review once treatment is completed")
        .limit(
            "15 to 17 mm in a child, 17 to 19 mm in an adult",
            Limit.HEIGHT_CHILD_LOW,
            Limit.HEIGHT_CHILD_HIGH,
            Limit.HEIGHT_ADULT_LOW,
            Limit.HEIGHT_ADULT_HIGH,
            Limit.ADULT_FROM)
        .about("/*/*/*", BiteAt.component("bite-upper-incisor-height"))
        .remedy(
            "At the start: plan the vertical change. At the end: see that the vertical dimension"
                + " has arrived before retention ends.")
        .samples(
            Sample.failing("/bites/0/overbiteHabitual", "{\"/bites/0/overbiteHabitual\": 5.5}"),
            Sample.passing("{\"/bites/0/overbiteHabitual\": 5}"));
  }

  @Override
  public void check(Case about, Findings found) {
    for (BiteAt at : BiteAt.all(about)) {
      Length height = IntergingivalHeight.of(at.bite()).inOcclusion();
      judge(about, height, Severity.INFORMATION, at.at("overbiteHabitual"), at.id(), found);
    }
    atTheEnd(about, found);
  }

  private static void atTheEnd(Case about, Findings found) {
    Completion completion = about.treatment().completion();
    Bite bite =
        about.treatment().bites().stream()
            .sorted(Comparator.comparing(Bite::recordedOn))
            .reduce((before, after) -> after)
            .orElse(null);
    Review review = about.treatment().lastReview(LocalDate.MAX).orElse(null);
    if (completion == null
        || completion.status() != Completion.Status.COMPLETED
        || bite == null
        || review == null) {
      return;
    }
    Length crowns = bite.upperIncisorHeight().plus(bite.lowerIncisorHeight());
    Pointer at =
        Pointer.of("reviews", about.treatment().reviews().lastIndexOf(review), "overbite");
    judge(about, crowns.minus(review.overbite()), Severity.WARNING, at, review.id(), found);
  }

  private static void judge(
      Case about, Length height, Severity severity, Pointer at, String subject, Findings found) {
    Band band = BiteAt.band(about);
    if (band.holds(height)) {
      return;
    }
    Length nearest = height.isBelow(band.low()) ? band.low() : band.high();
    found
        .report(severity, at, subject)
        .value("heightInOcclusion", height)
        .limit(
            about.adult() ? Limit.HEIGHT_ADULT_LOW : Limit.HEIGHT_CHILD_LOW,
            about.adult() ? Limit.HEIGHT_ADULT_HIGH : Limit.HEIGHT_CHILD_HIGH)
        .notingChange(Limit.ADULT_FROM)
        .borderlineWithin(
            height.minus(nearest).asDouble(), IntergingivalHeight.uncertainty(about.error()))
        .says(
            "The intergingival height in occlusion is %s; the band is %s to %s."
                .formatted(Shown.of(height), Shown.of(band.low()), Shown.of(band.high())));
  }
}
