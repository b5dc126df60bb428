package org.intercusp.rules.outcome;

import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.Treatment;

/** Outcomes of a treatment by phase; a second scoring never stands for a phase. */
final class Outcomes {

  static final String FHIR_PATH =
      "Bundle.entry.resource.ofType(Observation).where(code.coding.code = '90862-4')";

  static final String FINDINGS_PATH =
      "Bundle.entry.resource.ofType(Observation).where(code.coding.code = 'occlusal-findings')";

  static final String STATUS_PATH =
      "Bundle.entry.resource.ofType(Observation).where(code.coding.code = 'treatment-status')";

  private Outcomes() {}

  /** Index of the last scoring of a phase. */
  static OptionalInt of(Treatment treatment, Phase phase) {
    return IntStream.range(0, treatment.outcomes().size())
        .filter(i -> treatment.outcomes().get(i).phase() == phase)
        .filter(i -> treatment.outcomes().get(i).repeatOf() == null)
        .max();
  }
}
