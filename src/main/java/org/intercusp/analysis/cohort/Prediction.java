package org.intercusp.analysis.cohort;

import java.util.Comparator;
import java.util.List;
import org.intercusp.analysis.Reckoned;

/**
 * How well probabilities foretold what happened; no units.
 *
 * @param cases probabilities and what happened
 */
record Prediction(List<Foretold> cases) {

  private static final double NEVER_CERTAIN = 1e-12;

  Prediction {
    cases = List.copyOf(cases);
  }

  /** Share of pairs, one that happened and one that did not, foretold in order; ties count half. */
  Reckoned<Double> concordance() {
    List<Foretold> sorted =
        cases.stream().sorted(Comparator.comparingDouble(Foretold::probability)).toList();
    double with = 0;
    double without = 0;
    double inOrder = 0;
    int i = 0;
    while (i < sorted.size()) {
      double tiedWith = 0;
      double tiedWithout = 0;
      double probability = sorted.get(i).probability();
      for (; i < sorted.size() && sorted.get(i).probability() == probability; i++) {
        tiedWith += sorted.get(i).happened();
        tiedWithout += sorted.get(i).cases() - sorted.get(i).happened();
      }
      inOrder += tiedWith * (without + tiedWithout / 2);
      with += tiedWith;
      without += tiedWithout;
    }
    return with == 0 || without == 0
        ? Reckoned.lacking("it happened to all or to none")
        : Reckoned.known(inOrder / with / without);
  }

  /** Mean square of probability less what happened. */
  Reckoned<Double> brier() {
    double all = cases.stream().mapToDouble(Foretold::cases).sum();
    double squares =
        cases.stream()
            .mapToDouble(
                each -> {
                  double p = each.probability();
                  return each.happened() * (1 - p) * (1 - p)
                      + (each.cases() - each.happened()) * p * p;
                })
            .sum();
    return all == 0 ? Reckoned.lacking("nothing was foretold") : Reckoned.known(squares / all);
  }

  /** Slope of what happened on the foretold log odds: 1 is calibrated, below 1 too extreme. */
  Reckoned<Double> calibrationSlope() {
    double[][] logOdds =
        cases.stream()
            .map(each -> new double[] {logOdds(each.probability())})
            .toArray(double[][]::new);
    int[] happened = cases.stream().mapToInt(Foretold::happened).toArray();
    int[] counts = cases.stream().mapToInt(Foretold::cases).toArray();
    return LogisticFit.of(logOdds, happened, counts).map(fit -> fit.coefficients()[1]);
  }

  private static double logOdds(double probability) {
    double p = Math.min(1 - NEVER_CERTAIN, Math.max(NEVER_CERTAIN, probability));
    return Math.log(p / (1 - p));
  }

  /**
   * Cases with one probability.
   *
   * @param happened to how many it happened
   * @param cases how many there are, 1 or more
   */
  record Foretold(double probability, int happened, int cases) {

    Foretold(double probability, int happened) {
      this(probability, happened, 1);
    }
  }
}
