package org.intercusp.rules.outcome;

import java.util.List;
import java.util.OptionalInt;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.Outcome;
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

  /** Index of the last scoring of a phase by date; of several on one day the last of the file. */
  static OptionalInt of(Treatment treatment, Phase phase) {
    return lastThat(treatment, phase, outcome -> true);
  }

  /** The last scoring of a phase that has its findings. */
  static OptionalInt withFindings(Treatment treatment, Phase phase) {
    return lastThat(treatment, phase, outcome -> outcome.findings() != null);
  }

  private static OptionalInt lastThat(Treatment treatment, Phase phase, Predicate<Outcome> which) {
    List<Outcome> all = treatment.outcomes();
    return IntStream.range(0, all.size())
        .filter(i -> all.get(i).phase() == phase && all.get(i).repeatOf() == null)
        .filter(i -> which.test(all.get(i)))
        .reduce((a, b) -> all.get(b).date().isBefore(all.get(a).date()) ? a : b);
  }
}
