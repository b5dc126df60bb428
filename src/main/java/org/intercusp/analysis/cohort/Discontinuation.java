package org.intercusp.analysis.cohort;

import java.time.LocalDate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.intercusp.analysis.agreement.Proportion;
import org.intercusp.analysis.cohort.Treated.Standing;

/**
 * Cases discontinued among those first fitted at least 24 months before the cut-off; transferred
 * cases and those in treatment are left out.
 *
 * @param discontinued stopped by the patient, lost, or stopped by the clinician
 * @param completed ended as planned
 * @param unknown nobody has said how they ended
 */
public record Discontinuation(int discontinued, int completed, int unknown) {

  /** Months a case must have had. */
  public static final int MONTHS = 24;

  private static final double KNOWN_ENOUGH = 0.8;

  public static Discontinuation of(List<Treated> cases, LocalDate cutOff) {
    Map<Standing, Integer> counts = new EnumMap<>(Standing.class);
    for (Treated each : cases) {
      if (!each.fittedOn().plusMonths(MONTHS).isAfter(cutOff)) {
        counts.merge(each.at(cutOff), 1, Integer::sum);
      }
    }
    return new Discontinuation(
        counts.getOrDefault(Standing.DISCONTINUED, 0),
        counts.getOrDefault(Standing.COMPLETED, 0),
        counts.getOrDefault(Standing.UNKNOWN, 0));
  }

  /** Of all; a case nobody knows of counts in the denominator. */
  public Proportion ofAll() {
    return new Proportion(discontinued, discontinued + completed + unknown);
  }

  /** Of those whose end is known. */
  public Proportion ofKnown() {
    return new Proportion(discontinued, discontinued + completed);
  }

  /** How many of all are known. */
  public Proportion completeness() {
    return new Proportion(discontinued + completed, discontinued + completed + unknown);
  }

  /** Under 80 % known a clinic is shown and not judged. */
  public boolean mayBeJudged() {
    return mayBeJudged(completeness());
  }

  /** The same limit for any other figure: what is known of what should be. */
  public static boolean mayBeJudged(Proportion known) {
    return known.share().result().filter(share -> share >= KNOWN_ENOUGH).isPresent();
  }
}
