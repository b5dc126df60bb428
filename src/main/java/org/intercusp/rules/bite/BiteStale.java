package org.intercusp.rules.bite;

import java.time.temporal.ChronoUnit;
import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Bite;

/** A twin block is ordered while its bite still fits the mouth. */
final class BiteStale implements Rule {

  static final String CODE = "bite-stale";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the day a twin block was ordered with the day its bite was registered")
        .limit("at most 42 days after its bite", Limit.BITE_AGE)
        .about("/appliances/*/orderedOn", "Bundle.entry.resource.ofType(DeviceRequest).authoredOn")
        .remedy("Register the bite again before the appliance is made.")
        .samples(
            Sample.failing(
                "/appliances/0/orderedOn",
                """
                {"/appliances/0/orderedOn": "2026-03-17", "/appliances/0/fittedOn": "2026-03-20",
                 "/reviews": []}"""),
            Sample.passing(
                """
                {"/appliances/0/orderedOn": "2026-03-16", "/appliances/0/fittedOn": "2026-03-20",
                 "/reviews": []}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    List<Appliance> appliances = about.treatment().appliances();
    for (int i = 0; i < appliances.size(); i++) {
      Appliance appliance = appliances.get(i);
      Bite bite = about.biteOf(appliance).orElse(null);
      if (appliance.type() != ApplianceType.TWIN_BLOCK
          || bite == null
          || about.isRemade(appliance)) {
        continue;
      }
      long days = ChronoUnit.DAYS.between(bite.recordedOn(), appliance.orderedOn());
      if (days > about.limits().of(Limit.BITE_AGE).longValueExact()) {
        found
            .warning(Pointer.of("appliances", i, "orderedOn"), appliance.id())
            .value("daysAfterBite", days)
            .unit(Unit.DAY)
            .limit(Limit.BITE_AGE)
            .says("The appliance was ordered %s after its bite.".formatted(Unit.DAY.behind(days)));
      }
    }
  }
}
