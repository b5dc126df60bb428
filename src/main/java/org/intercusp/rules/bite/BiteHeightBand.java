package org.intercusp.rules.bite;

import org.intercusp.analysis.bite.IntergingivalHeight;
import org.intercusp.analysis.bite.IntergingivalHeight.Band;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** Shows by how much the bite lies above the vertical dimension treatment should arrive at. */
final class BiteHeightBand implements Rule {

  static final String CODE = "bite-height-band";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION)
        .compares("intergingival height in the bite: both incisor crowns plus incisal clearance")
        .limit(
            "at most 17 mm in a child, 19 mm in an adult",
            Limit.HEIGHT_CHILD_HIGH,
            Limit.HEIGHT_ADULT_HIGH,
            Limit.ADULT_FROM)
        .about("/bites/*/incisalClearance", BiteAt.component("bite-incisal-clearance"))
        .remedy(
            "Usual for a time: the height is judged when treatment ends. See that the blocks are"
                + " trimmed as planned.")
        .samples(
            Sample.failing("/bites/0/incisalClearance", "{\"/bites/0/incisalClearance\": 2.5}"),
            Sample.passing(
                """
                {"/bites/0/upperIncisorHeight": 8, "/bites/0/lowerIncisorHeight": 7}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    Band band = BiteAt.band(about);
    Limit top = about.adult() ? Limit.HEIGHT_ADULT_HIGH : Limit.HEIGHT_CHILD_HIGH;
    for (BiteAt at : BiteAt.standing(about)) {
      Length height = IntergingivalHeight.of(at.bite()).inBite();
      Length excess = band.excess(height);
      if (excess.isAbove(Length.ZERO)) {
        found
            .information(at.at("incisalClearance"), at.id())
            .value("heightInBite", height)
            .limit(top)
            .notingChange(Limit.ADULT_FROM)
            .borderlineWithin(excess.asDouble(), IntergingivalHeight.uncertainty(about.error()))
            .says(
                "The intergingival height in the bite is %s, %s above the band of %s to %s."
                    .formatted(
                        Shown.of(height),
                        Shown.of(excess),
                        Shown.of(band.low()),
                        Shown.of(band.high())));
      }
    }
  }
}
