package org.intercusp.rules.appliance;

import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Appliance.Clasp;

/** Wires have the usual thickness of their part. */
final class ApplianceWire implements Rule {

  static final String CODE = "appliance-wire";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the diameters of clasp and bow wires")
        .limit(
            "clasps 0.6 to 0.8 mm, labial bow 0.7 to 0.9 mm",
            Limit.CLASP_WIRE_LEAST,
            Limit.CLASP_WIRE_MOST,
            Limit.BOW_WIRE_LEAST,
            Limit.BOW_WIRE_MOST)
        .about("/appliances/*/**", ApplianceAt.property("clasp"))
        .remedy("Prescribe a usual wire, or tell the laboratory why not.")
        .samples(
            Sample.failing("/appliances/0/clasps/1/wire", "{\"/appliances/0/clasps/1/wire\": 0.9}"),
            Sample.passing("{\"/appliances/0/clasps/1/wire\": 0.80}"));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ApplianceAt at : ApplianceAt.standing(about)) {
      List<Clasp> clasps = at.appliance().clasps();
      for (int i = 0; i < clasps.size(); i++) {
        Pointer wire = at.at("clasps", i, "wire");
        Length size = clasps.get(i).wire();
        Limit low = Limit.CLASP_WIRE_LEAST;
        usual(about, at, wire, "clasp", size, low, Limit.CLASP_WIRE_MOST, found);
      }
      Appliance.LabialBow bow = at.appliance().labialBow();
      if (bow != null) {
        Pointer wire = at.at("labialBow", "wire");
        Limit low = Limit.BOW_WIRE_LEAST;
        usual(about, at, wire, "bow", bow.wire(), low, Limit.BOW_WIRE_MOST, found);
      }
    }
  }

  private static void usual(
      Case about,
      ApplianceAt of,
      Pointer at,
      String part,
      Length wire,
      Limit low,
      Limit high,
      Findings found) {
    if (wire.isBelow(about.limits().length(low)) || wire.isAbove(about.limits().length(high))) {
      found
          .warning(at, of.id())
          .value(part + "Wire", wire)
          .limit(low, high)
          .says(
              "The %s wire is %s; %s to %s is usual."
                  .formatted(
                      part,
                      Shown.of(wire),
                      Shown.of(about.limits().of(low)),
                      Shown.of(about.limits().length(high))));
    }
  }
}
