package org.intercusp.rules.diagnosis;

import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.IncisorClass;

/** Class III is outside what the product plans. */
final class DiagnosisOutOfScope implements Rule {

  static final String CODE = "diagnosis-out-of-scope";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares("the incisor class with those a functional appliance of this kind treats")
        .limit("class I, II/1 or II/2 (a class, no unit)")
        .about("/diagnosis/incisorClass", "Bundle.entry.resource.ofType(Condition).code")
        .remedy("Plan a class III treatment elsewhere.")
        .samples(
            Sample.failing("/diagnosis/incisorClass", "{\"/diagnosis/incisorClass\": \"III\"}"),
            Sample.passing("{\"/diagnosis/incisorClass\": \"II/2\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Diagnosis diagnosis = about.treatment().diagnosis();
    if (diagnosis.incisorClass() == IncisorClass.III) {
      found
          .error(Pointer.of("diagnosis", "incisorClass"), about.treatment().id())
          .value(diagnosis.incisorClass().code())
          .limit("I, II/1, II/2")
          .keeping("overjet", diagnosis.overjet().value())
          .says("The incisors are in class III, which is outside what is planned here.");
    }
  }
}
