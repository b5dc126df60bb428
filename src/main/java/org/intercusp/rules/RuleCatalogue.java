package org.intercusp.rules;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.rules.appliance.ApplianceRules;
import org.intercusp.rules.bite.BiteRules;
import org.intercusp.rules.consent.ConsentRules;
import org.intercusp.rules.dates.DateRules;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.stage.StageRules;

/** Every rule there is, in a fixed order. */
public final class RuleCatalogue {

  private static final List<Rule> RULES =
      Stream.of(
              ConsentRules.all(),
              DateRules.all(),
              BiteRules.all(),
              ApplianceRules.all(),
              StageRules.all())
          .flatMap(List::stream)
          .toList();

  private RuleCatalogue() {}

  /** The descriptions of all rules. */
  public static List<RuleDescription> rules() {
    return RULES.stream().map(Rule::description).toList();
  }

  /** The description of one rule. */
  public static Optional<RuleDescription> rule(String code) {
    return rules().stream().filter(rule -> rule.code().equals(code)).findFirst();
  }

  static List<Rule> all() {
    return RULES;
  }
}
