package org.intercusp.rules.review;

import java.util.List;
import org.intercusp.rules.rule.Rule;

/** The rules of this room, in the order of the catalogue. */
public final class ReviewRules {

  private ReviewRules() {}

  public static List<Rule> all() {
    return List.of(
        new ReviewJoint(),
        new ReviewHarm(),
        new ReviewOrder(),
        new ReviewOverdue(),
        new ReviewProgressSlow(),
        new ReviewWearDoubt(),
        new ReviewDualBite(),
        new ReviewOpening(),
        new ReviewIncisors(),
        new ReviewOvercorrection(),
        new ReviewStageReady(),
        new ReviewBreakage());
  }
}
