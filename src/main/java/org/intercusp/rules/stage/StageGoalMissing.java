package org.intercusp.rules.stage;

import java.math.BigDecimal;
import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Stage;

/** Every stage has a goal that can be measured, so that it can end. */
final class StageGoalMissing implements Rule {

  static final String CODE = "stage-goal-missing";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the number of measurable goals of a stage")
        .limit("at least one goal (a count)")
        .about(
            "/stages/*/goals", "Bundle.entry.resource.ofType(CarePlan).where(partOf.exists()).goal")
        .remedy(
            "State what ends the stage: overjet of 2 to 3 mm and molars class I for active,"
                + " posterior open bite 0 for support.")
        .samples(
            Sample.failing("/stages/1/goals", "{\"/stages/1/goals\": []}"),
            Sample.passing(
                """
                {"/stages/1/goals":
                 [{"measure": "overbite", "comparator": "ge", "target": 1}]}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    List<Stage> stages = about.treatment().stages();
    for (int i = 0; i < stages.size(); i++) {
      if (stages.get(i).goals().isEmpty()) {
        found
            .warning(Pointer.of("stages", i, "goals"), stages.get(i).id())
            .value("goals", 0)
            .unit(Unit.COUNT)
            .limit(BigDecimal.ONE)
            .says(
                "The %s stage has no measurable goal to end with."
                    .formatted(stages.get(i).kind().code()));
      }
    }
  }
}
