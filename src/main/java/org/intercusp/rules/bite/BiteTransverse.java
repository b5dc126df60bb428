package org.intercusp.rules.bite;

import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;

/** A crossbite that appears in the bite wants an expansion screw. */
final class BiteTransverse implements Rule {

  static final String CODE = "bite-transverse";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "a crossbite seen in the bite with the screws of the appliances built or"
                + " re-activated to it")
        .limit("an expansion screw on at least one appliance where there is a crossbite")
        .about("/bites/*/crossbiteInBite", BiteAt.component("bite-crossbite"))
        .remedy("Prescribe an expansion screw, or expand before the bite is taken.")
        .samples(
            Sample.failing("/bites/0/crossbiteInBite", "{\"/bites/0/crossbiteInBite\": true}"),
            Sample.passing(
                """
                {"/bites/0/crossbiteInBite": true, "/appliances/0/screw":
                 {"arch": "upper", "turn": 0.25, "plannedTurns": 16, "daysPerTurn": 7}}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    for (BiteAt at : BiteAt.standing(about)) {
      boolean screw = at.appliances(about.treatment()).anyMatch(each -> each.screw() != null);
      if (Boolean.TRUE.equals(at.bite().crossbiteInBite()) && !screw) {
        found
            .warning(at.at("crossbiteInBite"), at.id())
            .value("crossbite in the bite")
            .limit("an expansion screw")
            .says("There is a crossbite in the bite and no expansion screw is prescribed.");
      }
    }
  }
}
