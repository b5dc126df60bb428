package org.intercusp.rules.stage;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class StageRules {

  private StageRules() {}

  public static List<Rule> all() {
    return List.of(
        new StageOrder(),
        new StageLength(),
        new StageWear(),
        new StageTrimOpenBite(),
        new StageGoalMissing());
  }
}
