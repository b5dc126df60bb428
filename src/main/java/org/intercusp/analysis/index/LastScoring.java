package org.intercusp.analysis.index;

import java.util.List;
import java.util.Optional;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;

/** The scoring that stands for a phase. */
public final class LastScoring {

  private LastScoring() {}

  /**
   * The last of the phase by date, of several on one day the last of the file; never a second
   * scoring ({@code repeatOf}), which is for the agreement of examiners.
   */
  public static Optional<Outcome> of(List<Outcome> outcomes, Phase phase) {
    return outcomes.stream()
        .filter(outcome -> outcome.phase() == phase && outcome.repeatOf() == null)
        .reduce((one, other) -> other.date().isBefore(one.date()) ? one : other);
  }
}
