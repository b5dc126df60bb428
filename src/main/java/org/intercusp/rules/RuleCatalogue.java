package org.intercusp.rules;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.finding.Finding;
import org.intercusp.rules.appliance.ApplianceRules;
import org.intercusp.rules.bite.BiteRules;
import org.intercusp.rules.consent.ConsentRules;
import org.intercusp.rules.dates.DateRules;
import org.intercusp.rules.diagnosis.DiagnosisRules;
import org.intercusp.rules.outcome.OutcomeRules;
import org.intercusp.rules.review.ReviewRules;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.stage.StageRules;

/** Every rule there is, in a fixed order. */
public final class RuleCatalogue {

  /** Every rule with its description, described once. */
  private static final Map<Rule, RuleDescription> RULES = new LinkedHashMap<>();

  static {
    Stream.of(
            ConsentRules.all(),
            DateRules.all(),
            DiagnosisRules.all(),
            BiteRules.all(),
            ApplianceRules.all(),
            StageRules.all(),
            ReviewRules.all(),
            OutcomeRules.all())
        .flatMap(List::stream)
        .forEach(rule -> RULES.put(rule, rule.description()));
  }

  private static final Set<String> NEVER =
      RULES.values().stream()
          .filter(rule -> !rule.acceptable())
          .map(RuleDescription::code)
          .collect(Collectors.toUnmodifiableSet());

  private RuleCatalogue() {}

  /** The descriptions of all rules. */
  public static List<RuleDescription> rules() {
    return List.copyOf(RULES.values());
  }

  /** The description of one rule. */
  public static Optional<RuleDescription> rule(String code) {
    return rules().stream().filter(rule -> rule.code().equals(code)).findFirst();
  }

  /** Whether a reason may override findings of a rule. */
  public static boolean acceptable(String code) {
    return !NEVER.contains(code);
  }

  static List<Rule> all() {
    return List.copyOf(RULES.keySet());
  }

  /** What every rule finds in a case, rule by rule. */
  static Stream<Finding> findings(Case about) {
    return RULES.entrySet().stream()
        .flatMap(entry -> Findings.of(entry.getKey(), entry.getValue(), about).stream());
  }
}
