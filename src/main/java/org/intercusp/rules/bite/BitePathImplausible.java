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

/** The protrusive path is one that people have. */
final class BitePathImplausible implements Rule {

  static final String CODE = "bite-path-implausible";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("maximum minus retruded reading (habitual, where no retruded reading was taken)")
        .limit("6 to 18 mm", Limit.PATH_SHORTEST, Limit.PATH_LONGEST)
        .about("/bites/*/maximumReading", BiteAt.component("bite-maximum-reading"))
        .remedy("Let the patient practise the movement and read the scale again.")
        .samples(
            Sample.failing("/bites/0/maximumReading", "{\"/bites/0/maximumReading\": 18.5}"),
            Sample.passing("{\"/bites/0/maximumReading\": 18.0}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Length shortest = about.limits().length(Limit.PATH_SHORTEST);
    Length longest = about.limits().length(Limit.PATH_LONGEST);
    for (BiteAt at : BiteAt.standing(about)) {
      Length path = at.computed().path();
      if (path.isBelow(shortest) || path.isAbove(longest)) {
        Length nearest = path.isBelow(shortest) ? shortest : longest;
        found
            .warning(at.at("maximumReading"), at.id())
            .value("path", path)
            .limit(Limit.PATH_SHORTEST, Limit.PATH_LONGEST)
            .borderlineWithin(path.minus(nearest).asDouble(), at.computed().differenceUncertainty())
            .says(
                "A protrusive path of %s is unlikely; %s to %s is usual."
                    .formatted(Shown.of(path), Shown.of(shortest), Shown.of(longest)));
      }
    }
  }
}
