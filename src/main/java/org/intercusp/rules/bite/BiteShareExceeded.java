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

/** A bite uses no more than 70 % of the protrusive path (common teaching, no source). */
final class BiteShareExceeded implements Rule {

  static final String CODE = "bite-share-exceeded";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares("the share of the protrusive path that the registered position uses")
        .limit("at most 0.70 of the path (a ratio)", Limit.SHARE_OF_PATH)
        .about("/bites/*/registeredReading", BiteAt.component("bite-registered-reading"))
        .remedy(
            "Register less and plan the rest as a second step, or record why this patient can hold"
                + " it.")
        .samples(
            Sample.failing(
                "/bites/0/registeredReading",
                """
                {"/bites/0/registeredReading": 9.5, "/bites/0/overjetInBite": -0.5}"""),
            Sample.passing(
                """
                {"/bites/0/registeredReading": 9.0, "/bites/0/overjetInBite": 0}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    Share limit = about.limits().share(Limit.SHARE_OF_PATH);
    for (BiteAt at : BiteAt.all(about)) {
      if (!at.computed().usesMoreThan(limit)) {
        continue;
      }
      Share share = at.computed().share().result().orElseThrow();
      double u = at.computed().shareUncertainty().result().orElseThrow();
      found
          .error(at.at("registeredReading"), at.id())
          .value("share", Shown.rounded(share))
          .unit(Unit.SHARE)
          .limit(Limit.SHARE_OF_PATH)
          .keeping("activation", at.computed().activation().value())
          .keeping("path", at.computed().path().value())
          .borderlineWithin(share.asDouble() - limit.asDouble(), u)
          .says(
              "The bite uses %s of the protrusive path (%s of %s%s); the limit is %s."
                  .formatted(
                      Shown.of(share),
                      Shown.of(at.computed().activation()),
                      Shown.of(at.computed().path()),
                      at.computed().slideAssumed() ? ", slide assumed 0" : "",
                      Shown.of(limit)));
    }
  }
}
