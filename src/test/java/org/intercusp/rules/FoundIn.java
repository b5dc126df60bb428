package org.intercusp.rules;

import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Treatment;

/** What one rule finds in the base treatment of the samples with changes, on the day it speaks of. */
final class FoundIn {

  private FoundIn() {}

  /** By the usual limits. */
  static List<Finding> changes(String code, String changes) {
    return changes(code, changes, Limits.USUAL);
  }

  static List<Finding> changes(String code, String changes, Limits limits) {
    Treatment treatment = SampleTreatments.changed("{" + changes + "}");
    return new Examiner(limits)
        .examine(treatment, treatment.asOf()).findings().stream()
            .map(Judged::finding)
            .filter(finding -> finding.code().equals(code))
            .toList();
  }
}
