package org.intercusp.rules.diagnosis;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class DiagnosisRules {

  private DiagnosisRules() {}

  public static List<Rule> all() {
    return List.of(
        new DiagnosisClass(),
        new DiagnosisOutOfScope(),
        new DiagnosisGrowth(),
        new DiagnosisJoint(),
        new DiagnosisCaries());
  }
}
