package org.intercusp.rules.bite;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class BiteRules {

  private BiteRules() {}

  public static List<Rule> all() {
    return List.of(
        new BiteReadingsOrder(),
        new BiteShareExceeded(),
        new BiteShareBorderline(),
        new BiteOverjetMismatch(),
        new BiteStepLarge(),
        new BiteFirstStepSmall(),
        new BitePathImplausible(),
        new BiteClearanceLow(),
        new BiteClearanceHigh(),
        new BiteHeightBand(),
        new BiteHeightOcclusion(),
        new BiteMidline(),
        new BiteTransverse(),
        new BiteStale());
  }
}
