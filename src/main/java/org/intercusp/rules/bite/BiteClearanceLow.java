package org.intercusp.rules.bite;

import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** The bite opens the premolars beyond the freeway space, so that the blocks can't be evaded. */
final class BiteClearanceLow implements Rule {

  static final String CODE = "bite-clearance-low";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("premolar clearance in the bite with the rest space and with a least clearance")
        .limit(
            "above the rest space + 1 mm, and at least 4 mm",
            Limit.REST_SPACE_MARGIN,
            Limit.PREMOLAR_CLEARANCE_LEAST)
        .about("/bites/*/premolarClearance", BiteAt.component("bite-premolar-clearance"))
        .remedy("Register the bite more open.")
        .samples(
            Sample.failing("/bites/0/premolarClearance", "{\"/bites/0/restSpace\": 4.5}"),
            Sample.passing("{\"/bites/0/restSpace\": 4.4}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Length least = about.limits().length(Limit.PREMOLAR_CLEARANCE_LEAST);
    Length margin = about.limits().length(Limit.REST_SPACE_MARGIN);
    for (BiteAt at : BiteAt.standing(about)) {
      Length clearance = at.bite().premolarClearance();
      Length rest = at.bite().restSpace();
      if (clearance == null) {
        continue;
      }
      if (rest != null && !clearance.isAbove(rest.plus(margin))) {
        Length limit = rest.plus(margin);
        found
            .warning(at.at("premolarClearance"), at.id())
            .value("premolarClearance", clearance)
            .limit(limit)
            .keeping("restSpace", rest.value())
            .notingChange(Limit.REST_SPACE_MARGIN)
            .borderlineWithin(
                clearance.minus(limit).asDouble(), at.computed().differenceUncertainty())
            .says(
                "The premolars are %s apart in the bite, not above the rest space of %s and %s more."
                    .formatted(Shown.of(clearance), Shown.of(rest), Shown.of(margin)));
      } else if (clearance.isBelow(least)) {
        found
            .warning(at.at("premolarClearance"), at.id())
            .value("premolarClearance", clearance)
            .limit(Limit.PREMOLAR_CLEARANCE_LEAST)
            .borderlineWithin(clearance.minus(least).asDouble(), about.u())
            .says(
                "The premolars are %s apart in the bite; at least %s is wanted."
                    .formatted(Shown.of(clearance), Shown.of(least)));
      }
    }
  }
}
