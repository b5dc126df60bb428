package org.intercusp.rules.bite;

import org.intercusp.finding.Severity;
import org.intercusp.measure.Share;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** A share within the limit, but so near that the reading error could change the verdict. */
final class BiteShareBorderline implements Rule {

  static final String CODE = "bite-share-borderline";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION)
        .compares("the share of the path with the limit, given the reading error")
        .limit(
            "share at most 0.70 (a ratio), but 0.70 within its standard uncertainty",
            Limit.SHARE_OF_PATH)
        .about("/bites/*/registeredReading", BiteAt.component("bite-registered-reading"))
        .remedy("Read the scale twice; take the more careful reading.")
        .samples(
            Sample.failing(
                "/bites/0/registeredReading",
                """
                {"/bites/0/registeredReading": 9.0, "/bites/0/overjetInBite": 0}"""),
            Sample.passing(
                """
                {"/bites/0/registeredReading": 8.5, "/bites/0/overjetInBite": 0.5}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    Share limit = about.limits().share(Limit.SHARE_OF_PATH);
    for (BiteAt at : BiteAt.standing(about)) {
      Share share = at.computed().share().result().orElse(null);
      double u = at.computed().shareUncertainty().result().orElse(0.0);
      if (share == null
          || at.computed().usesMoreThan(limit)
          || limit.value().subtract(share.value()).doubleValue() > u) {
        continue;
      }
      found
          .information(at.at("registeredReading"), at.id())
          .value("share", Shown.rounded(share))
          .unit(Unit.SHARE)
          .limit(Limit.SHARE_OF_PATH)
          .says(
              "Borderline: the bite uses %s of the path, within the reading error (u = %s %%) of %s."
                  .formatted(
                      Shown.of(share), Shown.of(Shown.rounded(u * 100, 1)), Shown.of(limit)));
    }
  }
}
