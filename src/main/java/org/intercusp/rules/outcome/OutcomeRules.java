package org.intercusp.rules.outcome;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class OutcomeRules {

  private OutcomeRules() {}

  public static List<Rule> all() {
    return List.of(new OutcomeScoreMismatch(), new OutcomeMissing(), new OutcomeRelapse());
  }
}
