package org.intercusp.rules.appliance;

import java.util.EnumSet;
import java.util.Set;
import org.intercusp.dentition.Arch;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Appliance.Clasp;

/** A plate is held by at least two clasps. */
final class ApplianceRetention implements Rule {

  static final String CODE = "appliance-retention";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the clasps in each arch that carries a plate")
        .limit("at least 2 clasps (a count)", Limit.CLASPS_AN_ARCH)
        .about("/appliances/*/clasps", ApplianceAt.property("clasp"))
        .remedy("Add clasps: a loose plate is not worn.")
        .samples(
            Sample.failing("/appliances/0/clasps", "{\"/appliances/0/clasps/3\": null}"),
            Sample.passing(
                """
                {"/appliances/0/clasps/3": {"tooth": "36", "kind": "adams", "wire": 0.7}}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ApplianceAt at : ApplianceAt.standing(about)) {
      for (Arch arch : plates(at.appliance())) {
        long clasps =
            at.appliance().clasps().stream()
                .map(Clasp::tooth)
                .filter(tooth -> tooth.arch() == arch)
                .distinct()
                .count();
        if (clasps < about.limits().of(Limit.CLASPS_AN_ARCH).longValueExact()) {
          found
              .warning(at.at("clasps"), at.id())
              .value(arch.code() + "Clasps", clasps)
              .limit(Limit.CLASPS_AN_ARCH)
              .says(
                  "The %s plate is held by %d %s."
                      .formatted(arch.code(), clasps, clasps == 1 ? "clasp" : "clasps"));
        }
      }
    }
  }

  /** The arches that carry a plate; of a retainer those its wires and screw show. */
  private static Set<Arch> plates(Appliance appliance) {
    return switch (appliance.type()) {
      case TWIN_BLOCK -> EnumSet.allOf(Arch.class);
      case ANTERIOR_INCLINED_PLANE -> EnumSet.of(Arch.UPPER);
      case RETAINER -> shown(appliance);
    };
  }

  private static Set<Arch> shown(Appliance appliance) {
    Set<Arch> arches = EnumSet.noneOf(Arch.class);
    appliance.clasps().forEach(clasp -> arches.add(clasp.tooth().arch()));
    Appliance.LabialBow bow = appliance.labialBow();
    if (bow != null) {
      arches.add(bow.arch());
    }
    Appliance.Screw screw = appliance.screw();
    if (screw != null) {
      arches.add(screw.arch());
    }
    return arches;
  }
}
