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
class GeneratedConformTest {

  private static final Predicate<Issue> FAULT =
      issue -> issue.weight().stops() && issue.rule().startsWith("fhir-");

  @Test
  @Tag("long")
  void twoHundredConform() {
    conform(bundles(200));
  }

  /** Reverse overjets among them: the engine compares negative decimals by their letters. */
  @Test
  void aReverseOverjetConforms() {
    conform(bundles(20).subList(18, 19));
  }

  private static void conform(List<Bundle> bundles) {
    assertThat(bundles).isNotEmpty();
    for (Bundle bundle : bundles) {
      assertThat(Judges.SHARED.validate(bundle))
          .as(bundle.getEntryFirstRep().getFullUrl())
          .noneMatch(FAULT);
    }
  }

  private static List<Bundle> bundles(int count) {
    return new TreatmentGenerator()
        .treatments(count, 20261102L)
        .map(treatment -> Judges.bundle(treatment, BundleForm.TRANSACTION))
        .toList();
  }
}
