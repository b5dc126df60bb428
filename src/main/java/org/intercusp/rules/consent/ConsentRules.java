package org.intercusp.rules.consent;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class ConsentRules {

  private ConsentRules() {}

  public static List<Rule> all() {
    return List.of(new ConsentMissing());
  }
}
