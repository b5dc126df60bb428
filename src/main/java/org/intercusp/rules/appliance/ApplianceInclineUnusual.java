package org.intercusp.rules.appliance;

import org.intercusp.analysis.block.Incline;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Angle;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** An incline that is neither 45 degrees nor about 70. */
final class ApplianceInclineUnusual implements Rule {

  static final String CODE = "appliance-incline-unusual";
  private static final Angle FLAT = Angle.of("45");

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION, Severity.WARNING)
        .compares("the incline of the bite planes to the occlusal plane")
        .limit(
            "45 deg or 65 to 75 deg; a warning above 75 deg; outside 45 to 90 deg it is an error of"
                + " its own",
            Limit.INCLINE_USUAL_LOW,
            Limit.INCLINE_USUAL_HIGH,
            Limit.INCLINE_LEAST,
            Limit.INCLINE_MOST)
        .about("/appliances/*/inclineAngle", ApplianceAt.parameter("incline-angle"))
        .remedy("See that the incline is meant: a steep one lets the jaw fall back.")
        .samples(
            Sample.failing("/appliances/0/inclineAngle", "{\"/appliances/0/inclineAngle\": 60}"),
            Sample.passing("{\"/appliances/0/inclineAngle\": 75}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Limits limits = about.limits();
    Angle low = limits.angle(Limit.INCLINE_USUAL_LOW);
    Angle high = limits.angle(Limit.INCLINE_USUAL_HIGH);
    for (ApplianceAt at : ApplianceAt.standing(about)) {
      Angle incline = at.appliance().inclineAngle();
      if (incline == null || incline.equals(FLAT) || outOfRange(limits, incline)) {
        continue;
      }
      if (incline.isBelow(low) || incline.isAbove(high)) {
        Severity severity = incline.isAbove(high) ? Severity.WARNING : Severity.INFORMATION;
        Incline plane = new Incline(incline);
        found
            .report(severity, at.at("inclineAngle"), at.id())
            .value("inclineAngle", incline)
            .limit(Limit.INCLINE_USUAL_LOW, Limit.INCLINE_USUAL_HIGH)
            .notingChange(Limit.INCLINE_LEAST)
            .notingChange(Limit.INCLINE_MOST)
            .remedy("See that the incline is meant: a " + effect(severity))
            .says(
                "An incline of %s is unusual (%s of the contact force acts forward, %s vertically)."
                    .formatted(
                        Shown.of(incline),
                        Shown.of(Shown.rounded(plane.forward(), 2)),
                        Shown.of(Shown.rounded(plane.vertical(), 2))));
      }
    }
  }

  private static String effect(Severity severity) {
    return severity == Severity.WARNING
        ? "steep one lets the jaw fall back."
        : "flat one brings the jaw forward with less of its force.";
  }

  private static boolean outOfRange(Limits limits, Angle incline) {
    return incline.isBelow(limits.angle(Limit.INCLINE_LEAST))
        || incline.isAbove(limits.angle(Limit.INCLINE_MOST));
  }
}
