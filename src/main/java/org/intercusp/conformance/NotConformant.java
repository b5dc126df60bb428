package org.intercusp.conformance;

import java.util.List;

/** A Bundle that must not leave, with what is wrong with it. */
public final class NotConformant extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient List<Issue> issues;

  NotConformant(List<Issue> issues) {
    super(
        issues.stream()
            .filter(issue -> issue.weight().stops())
            .map(issue -> issue.rule() + " at " + issue.expression())
            .reduce("The Bundle does not conform:", (all, next) -> all + " " + next + ";"));
    this.issues = List.copyOf(issues);
  }

  /** Every issue, sorted. */
  public List<Issue> issues() {
    return issues;
  }
}
