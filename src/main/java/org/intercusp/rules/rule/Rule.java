package org.intercusp.rules.rule;

/**
 * One check of a treatment. A rule looks at a case and reports what it finds; it never throws on a
 * readable treatment, however odd, and stays silent where an optional reading is missing.
 */
public interface Rule {

  /** What the rule is, for a person and for the catalogue. */
  RuleDescription description();

  /** Looks at a case and reports to {@code found}. */
  void check(Case about, Findings found);
}
