package org.intercusp.rules.appliance;

import org.intercusp.finding.Severity;
import org.intercusp.measure.Angle;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** Bite planes stand between 45 and 90 degrees to the occlusal plane. */
final class ApplianceInclineRange implements Rule {

  static final String CODE = "appliance-incline-range";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares("the incline of the bite planes to the occlusal plane")
        .limit("45 to 90 deg", Limit.INCLINE_LEAST, Limit.INCLINE_MOST)
        .about("/appliances/*/inclineAngle", ApplianceAt.parameter("incline-angle"))
        .remedy("Prescribe 70 degrees; 45 for a patient who can't hold the forward posture.")
        .samples(
            Sample.failing("/appliances/0/inclineAngle", "{\"/appliances/0/inclineAngle\": 44.5}"),
            Sample.passing("{\"/appliances/0/inclineAngle\": 45}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Angle least = about.limits().angle(Limit.INCLINE_LEAST);
    Angle most = about.limits().angle(Limit.INCLINE_MOST);
    for (ApplianceAt at : ApplianceAt.all(about)) {
      Angle incline = at.appliance().inclineAngle();
      if (incline != null && (incline.isBelow(least) || incline.isAbove(most))) {
        found
            .error(at.at("inclineAngle"), at.id())
            .value("inclineAngle", incline)
            .limit(Limit.INCLINE_LEAST, Limit.INCLINE_MOST)
            .says(
                "The incline is %s; it lies between %s and %s."
                    .formatted(Shown.of(incline), Shown.of(least), Shown.of(most)));
      }
    }
  }
}
