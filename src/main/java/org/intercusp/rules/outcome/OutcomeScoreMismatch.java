package org.intercusp.rules.outcome;

import org.intercusp.analysis.index.Scored;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Outcome;

/** Scores given by an examiner are those the findings come to. */
final class OutcomeScoreMismatch implements Rule {

  static final String CODE = "outcome-score-mismatch";

  /** Each finding cites the one it is in. */
  private static final Source INDICES =
      Source.partlyMemory(
          "Eur J Orthod 1992;14:125-139 (PAR), Eur J Orthod 1989;11:309-320 (DHC)",
          "tables of PAR, some letters of DHC and J Orthod 2000;27:149-162 (ICON) from memory");

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .neverAcceptable()
        .compares("each score given with the score computed from the findings beside it")
        .limit("equal (points or code)")
        .about("/outcomes/*/scores/**", Outcomes.FHIR_PATH)
        .remedy("Score again; send findings or scores, or both where they agree.")
        .source(INDICES)
        .samples(
            Sample.failing(
                "/outcomes/0/scores/dhc",
                "{\"/outcomes\": ["
                    + OutcomeSamples.START
                    + "], \"/outcomes/0/scores\": {\"dhc\": \"5a\"}}"),
            Sample.passing(
                "{\"/outcomes\": ["
                    + OutcomeSamples.START
                    + "], \"/outcomes/0/scores\": {\"dhc\": \"4a\"}}"));
  }

  @Override
  public void check(Case about, Findings found) {
    for (int i = 0; i < about.treatment().outcomes().size(); i++) {
      Outcome outcome = about.treatment().outcomes().get(i);
      for (Scored.Difference difference : Scored.differences(outcome)) {
        Pointer at = Pointer.of("outcomes", i, "scores");
        for (String member : difference.members()) {
          at = at.child(member);
        }
        found
            .error(at, outcome.id())
            .value(difference.given())
            .limit(difference.computed())
            .source(difference.source())
            .says(
                "%s is given as %s; the findings come to %s."
                    .formatted(
                        String.join(" ", difference.members()),
                        difference.given(),
                        difference.computed()));
      }
    }
  }
}
