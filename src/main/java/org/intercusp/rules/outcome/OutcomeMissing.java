package org.intercusp.rules.outcome;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.index.Scored;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.Treatment;

/** A treatment that has ended has been scored at its end as at its start. */
final class OutcomeMissing implements Rule {

  static final String CODE = "outcome-missing";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "the outcomes of a treatment that has ended (not: transferred) with its end, and the"
                + " scores of the end with those of the start")
        .limit("an end outcome, with every score the start has (a count of missing scores: 0)")
        .about("/completion/status or /outcomes/*", Outcomes.STATUS_PATH)
        .remedy("Score the end of treatment, from models or scans if the patient has left.")
        .samples(
            Sample.failing("/completion/status", "{\"/completion\": " + ENDED + "}"),
            Sample.passing(
                "{\"/completion\": "
                    + ENDED
                    + ", \"/outcomes\": ["
                    + OutcomeSamples.outcome("O2", "2026-07-13", "end", "2")
                    + "]}"));
  }

  private static final String ENDED =
      "{\"status\": \"completed\", \"decidedOn\": \"2026-07-13\", \"lastAttendedOn\": \"2026-07-13\"}";

  @Override
  public void check(Case about, Findings found) {
    Treatment treatment = about.treatment();
    Completion completion = treatment.completion();
    if (completion == null
        || completion.status() == Completion.Status.IN_TREATMENT
        || completion.status() == Completion.Status.TRANSFERRED) {
      return;
    }
    OptionalInt end = Outcomes.of(treatment, Phase.END);
    if (end.isEmpty()) {
      found
          .warning(Pointer.of("completion", "status"), treatment.id())
          .value("no end outcome")
          .limit("an outcome of phase end")
          .says(
              "The treatment has ended (%s) and has no end outcome."
                  .formatted(completion.status().code()));
      return;
    }
    Outcomes.of(treatment, Phase.START)
        .ifPresent(start -> compare(treatment, start, end.getAsInt(), found));
  }

  private static void compare(Treatment treatment, int start, int end, Findings found) {
    Scored first = Scored.of(treatment.outcomes().get(start));
    Scored last = Scored.of(treatment.outcomes().get(end));
    List<String> missing = new ArrayList<>();
    add(missing, "PAR", first.par(), last.par());
    add(missing, "dental health component", first.dhc(), last.dhc());
    add(missing, "ICON", first.icon(), last.icon());
    if (!missing.isEmpty()) {
      found
          .warning(Pointer.of("outcomes", end), treatment.outcomes().get(end).id())
          .value("missingScores", missing.size())
          .unit(Unit.COUNT)
          .limit(BigDecimal.ZERO)
          .says(
              "Scored at the start and not at the end: %s.".formatted(String.join(", ", missing)));
    }
  }

  private static void add(List<String> missing, String name, Reckoned<?> first, Reckoned<?> last) {
    if (first.result().isPresent() && last.result().isEmpty()) {
      missing.add(name);
    }
  }
}
