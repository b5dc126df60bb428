package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.Predicate;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.scenario.TreatmentGenerator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Invented treatments are valid R4 by the general validator and our profiles. */
@Tag("long")
class GeneratedConformTest {

  private static final Predicate<Issue> FAULT =
      issue -> issue.weight().stops() && issue.rule().startsWith("fhir-");

  @Test
  void twoHundredConform() {
    List<Bundle> bundles =
        new TreatmentGenerator()
            .treatments(200, 20261102L)
            .map(treatment -> Judges.bundle(treatment, BundleForm.TRANSACTION))
            .toList();
    assertThat(bundles).hasSize(200);
    for (Bundle bundle : bundles) {
      assertThat(Judges.SHARED.validate(bundle))
          .as(bundle.getEntryFirstRep().getFullUrl())
          .noneMatch(FAULT);
    }
  }
}
