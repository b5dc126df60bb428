package org.intercusp.analysis.cohort;

import java.util.List;
import org.intercusp.analysis.Reckoned;

/**
 * How well probabilities foretold what happened; no units.
 *
 * @param cases a probability and what happened, one a case
 */
record Prediction(List<Foretold> cases) {

  private static final double NEVER_CERTAIN = 1e-12;

  Prediction {
    cases = List.copyOf(cases);
  }

  /** Share of pairs, one that happened and one that did not, foretold in order; ties count half. */
  Reckoned<Double> concordance() {
    List<Foretold> with = cases.stream().filter(each -> each.happened() == 1).toList();
    List<Foretold> without = cases.stream().filter(each -> each.happened() == 0).toList();
    if (with.isEmpty() || without.isEmpty()) {
      return Reckoned.lacking("it happened to all or to none");
    }
    double inOrder = 0;
    for (Foretold one : with) {
      for (Foretold other : without) {
        inOrder += (1 + Math.signum(one.probability() - other.probability())) / 2;
      }
    }
    return Reckoned.known(inOrder / with.size() / without.size());
  }

  /** Mean square of probability less what happened. */
  Reckoned<Double> brier() {
    return cases.isEmpty()
        ? Reckoned.lacking("nothing was foretold")
        : Reckoned.known(
            cases.stream()
                .mapToDouble(each -> each.probability() - each.happened())
                .map(miss -> miss * miss)
                .average()
                .orElseThrow());
  }

  /** Slope of what happened on the foretold log odds: 1 is calibrated, below 1 too extreme. */
  Reckoned<Double> calibrationSlope() {
    double[][] logOdds =
        cases.stream()
            .map(each -> new double[] {logOdds(each.probability())})
            .toArray(double[][]::new);
    int[] happened = cases.stream().mapToInt(Foretold::happened).toArray();
    return LogisticFit.of(logOdds, happened).map(fit -> fit.coefficients()[1]);
  }

  private static double logOdds(double probability) {
    double p = Math.min(1 - NEVER_CERTAIN, Math.max(NEVER_CERTAIN, probability));
    return Math.log(p / (1 - p));
  }

  /**
   * One case.
   *
   * @param happened 1 or 0
   */
  record Foretold(double probability, int happened) {}
}
