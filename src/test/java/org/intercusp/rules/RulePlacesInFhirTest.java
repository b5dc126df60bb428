package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.fhirpath.IFhirPath;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.instance.model.api.IBase;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** The FHIRPath of a rule leads to something in the Bundle of its failing sample. */
class RulePlacesInFhirTest {

  private static final IFhirPath PATHS = FhirContext.forR4Cached().newFhirPath();

  @TestFactory
  Stream<DynamicTest> everyFhirPathResolves() {
    return RuleCatalogue.rules().stream()
        .map(rule -> dynamicTest(rule.code(), () -> assertThat(places(rule)).isNotEmpty()));
  }

  private static List<IBase> places(RuleDescription rule) {
    Treatment treatment = SampleTreatments.changed(rule.failing().changes());
    Bundle bundle =
        new TreatmentMapper(Canonicals.RESERVED)
            .toBundle(treatment, treatment.asOf(), List.of(), BundleForm.COLLECTION);
    return PATHS.evaluate(bundle, rule.fhirPath(), IBase.class);
  }
}
