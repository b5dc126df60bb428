package org.intercusp.rules.review;

import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;

/** Appliances that break again and again are not worn as made. */
final class ReviewBreakage implements Rule {

  static final String CODE = "review-breakage";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the breakages of all reviews together")
        .limit("fewer than 2 breakages (a count)", Limit.BREAKAGES)
        .about("/reviews/*/breakages", "Bundle.entry.resource.ofType(Procedure)")
        .remedy("Look for the cause: design, material, handling.")
        .samples(
            Sample.failing(
                "/reviews/2/breakages",
                """
                {"/reviews/1/breakages":
                   [{"applianceId": "A1", "part": "clasp", "action": "repaired"}],
                 "/reviews/2/breakages":
                   [{"applianceId": "A1", "part": "block", "action": "repaired"}]}"""),
            Sample.passing(
                """
                {"/reviews/2/breakages":
                   [{"applianceId": "A1", "part": "block", "action": "repaired"}]}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    int count = 0;
    ReviewAt last = null;
    for (ReviewAt at : ReviewAt.all(about)) {
      if (!at.review().breakages().isEmpty()) {
        count += at.review().breakages().size();
        last = at;
      }
    }
    if (last != null && count >= about.limits().of(Limit.BREAKAGES).intValueExact()) {
      found
          .warning(last.at("breakages"), last.id())
          .value("breakages", count)
          .limit(Limit.BREAKAGES)
          .says(
              (count == 1 ? "There was 1 breakage so far." : "There were %d breakages so far.")
                  .formatted(count));
    }
  }
}
