package org.intercusp.rules;

import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.treatment.Acceptance;
import org.jspecify.annotations.Nullable;

/**
 * A finding, with the acceptance that counts for it where there is one. An acceptance counts while
 * finding, subject and values are those it was given for, numbers being compared by size.
 */
public record Judged(Finding finding, @Nullable Acceptance acceptance) {

  public boolean accepted() {
    return acceptance != null;
  }

  /** Whether this holds a delivery back: refused, or an error without an acceptance. */
  public boolean stops() {
    return switch (finding.severity()) {
      case REFUSED -> true;
      case ERROR -> !accepted();
      case URGENT, WARNING, INFORMATION -> false;
    };
  }

  /** Whether this is a sign of harm that no clinician has answered yet. */
  public boolean stopsOrders() {
    return finding.severity() == Severity.URGENT && !accepted();
  }
}
