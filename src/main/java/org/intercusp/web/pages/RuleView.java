package org.intercusp.web.pages;

import java.util.List;
import java.util.stream.Collectors;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.intercusp.rules.rule.RuleDescription;

/**
 * A rule in the words of a page.
 *
 * @param settable its limits a clinic may set, each with its value here and its safe bounds
 */
public record RuleView(RuleDescription rule, List<String> settable) {

  static RuleView of(RuleDescription rule, Limits limits) {
    return new RuleView(rule, rule.settable().stream().map(limit -> shown(limit, limits)).toList());
  }

  private static String shown(Limit limit, Limits limits) {
    return "%s = %s%s; may be set from %s to %s"
        .formatted(
            limit.code(),
            limit.unit().behind(limits.of(limit).toPlainString()),
            limits.isChanged(limit) ? " (set by the clinic)" : "",
            limit.lowest().toPlainString(),
            limit.highest().toPlainString());
  }

  public String severities() {
    return rule.severities().stream().map(Severity::code).collect(Collectors.joining(", "));
  }

  public String accepting() {
    return rule.acceptable() ? "with a reason" : "never";
  }
}
