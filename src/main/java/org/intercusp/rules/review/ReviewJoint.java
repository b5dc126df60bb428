package org.intercusp.rules.review;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.JointSign;

/** A sign of harm to the joint during treatment goes out at once and stops the next order. */
final class ReviewJoint implements Rule {

  static final String CODE = "review-joint";
  private static final Set<JointSign> HARM =
      EnumSet.of(JointSign.PAIN, JointSign.LOCKING, JointSign.LIMITED_OPENING);

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.URGENT)
        .compares("the joint signs found at a review")
        .limit("no pain in front of the ear, locking or limited opening (a count of signs: 0)")
        .about("/reviews/*/jointSigns/*", ReviewAt.observation("joint-signs"))
        .remedy(
            "Stop wear until the joint has been examined; order no further appliance before a"
                + " clinician has answered this.")
        .samples(
            Sample.failing("/reviews/3/jointSigns/0", "{\"/reviews/3/jointSigns\": [\"pain\"]}"),
            Sample.passing("{\"/reviews/3/jointSigns\": [\"click\"]}"));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ReviewAt at : ReviewAt.all(about)) {
      List<JointSign> signs = at.review().jointSigns();
      for (int i = 0; signs != null && i < signs.size(); i++) {
        if (HARM.contains(signs.get(i))) {
          found
              .report(Severity.URGENT, at.at("jointSigns", i), at.id())
              .value(signs.get(i).code())
              .limit("none")
              .keeping(signs.get(i).code(), 1)
              .says(
                  "A joint sign appeared during treatment: %s, seen on %s."
                      .formatted(signs.get(i).code().replace('-', ' '), at.review().date()));
        }
      }
    }
  }
}
