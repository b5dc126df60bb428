package org.intercusp.rules.diagnosis;

import org.intercusp.analysis.growth.GrowthEffect;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.GrowthStage;

/** Notes a growth stage away from the peak, with the size of the published effect. */
final class DiagnosisGrowth implements Rule {

  static final String CODE = "diagnosis-growth";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION)
        .compares("the growth stage with the stages around the peak of growth")
        .limit("CS3 or CS4 (a stage, no unit)")
        .about(
            "/diagnosis/growthStage",
            "Bundle.entry.resource.ofType(Observation)"
                + ".where(code.coding.code = 'growth-stage').value")
        .remedy("A finding, not a bar: weigh the expected effect with the patient.")
        .source(GrowthEffect.SOURCE)
        .samples(
            Sample.failing("/diagnosis/growthStage", "{\"/diagnosis/growthStage\": \"CS2\"}"),
            Sample.passing("{\"/diagnosis/growthStage\": \"CS4\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    GrowthStage stage = about.treatment().diagnosis().growthStage();
    if (stage == null || stage == GrowthStage.CS3 || stage == GrowthStage.CS4) {
      return;
    }
    String effect =
        GrowthEffect.at(stage)
            .map(
                known ->
                    "extra mandibular length a year with treatment is %s (%s to %s)"
                        .formatted(
                            Shown.of(known.aYear()), Shown.of(known.low()), Shown.of(known.high())))
            .result()
            .orElse(GrowthEffect.at(stage).reason());
    found
        .information(Pointer.of("diagnosis", "growthStage"), about.treatment().id())
        .value(stage.code())
        .limit("CS3-CS4")
        .says(
            "Growth stage %s is not around the peak: %s; around the peak it is %s (%s to %s)."
                .formatted(
                    stage.code(),
                    effect,
                    Shown.of(GrowthEffect.AT_PEAK.aYear()),
                    Shown.of(GrowthEffect.AT_PEAK.low().value()),
                    Shown.of(GrowthEffect.AT_PEAK.high().value())));
  }
}
