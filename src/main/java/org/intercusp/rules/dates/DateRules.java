package org.intercusp.rules.dates;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class DateRules {

  private DateRules() {}

  public static List<Rule> all() {
    return List.of(new DateOrder());
  }
}
