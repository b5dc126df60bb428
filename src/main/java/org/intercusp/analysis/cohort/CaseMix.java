package org.intercusp.analysis.cohort;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.cohort.Prediction.Foretold;
import org.intercusp.finding.Source;

/**
 * Rates of clinics adjusted for the cases they took: a logistic model of age, sex, rating in tens
 * and growth over all clinics, with no term for the clinic. Withheld with fewer than ten of the
 * rarer outcome a coefficient, the intercept not counted (common practice, no source).
 *
 * @param overall share of all cases, p0
 * @param clinics by key, in order of keys
 * @param performance of the model on cases it was not fitted on
 */
public record CaseMix(double overall, Map<String, Rate> clinics, Performance performance) {

  public static final Source SOURCE = Source.COMMON_PRACTICE;

  private static final int EVENTS_A_COEFFICIENT = 10;
  private static final int FOLDS = 10;

  public CaseMix {
    clinics = Collections.unmodifiableMap(new TreeMap<>(clinics));
  }

  public static Reckoned<CaseMix> of(List<MixedCase> cases) {
    int[] happened = cases.stream().mapToInt(MixedCase::happened).toArray();
    double[][] covariates = used(cases, happened);
    int events = Arrays.stream(happened).sum();
    int rarer = Math.min(events, cases.size() - events);
    int coefficients = covariates.length == 0 ? 0 : covariates[0].length;
    if (rarer < EVENTS_A_COEFFICIENT * Math.max(1, coefficients)) {
      return Reckoned.lacking(
          rarer + " of the rarer outcome are too few for " + coefficients + " coefficients");
    }
    return LogisticFit.of(covariates, happened)
        .map(
            fit ->
                new CaseMix(
                    (double) events / cases.size(),
                    rates(cases, covariates, fit, (double) events / cases.size()),
                    performance(covariates, happened)));
  }

  private static double[][] used(List<MixedCase> cases, int[] happened) {
    double[][] all = cases.stream().map(MixedCase::covariates).toArray(double[][]::new);
    int[] ones = new int[all.length];
    Arrays.fill(ones, 1);
    int[] columns = UsedColumns.of(all, happened, ones);
    return Arrays.stream(all)
        .map(row -> Arrays.stream(columns).mapToDouble(j -> row[j]).toArray())
        .toArray(double[][]::new);
  }

  private static Map<String, Rate> rates(
      List<MixedCase> cases, double[][] covariates, LogisticFit fit, double overall) {
    Map<String, Rate> rates = new TreeMap<>();
    for (int i = 0; i < cases.size(); i++) {
      double p = fit.predict(covariates[i]);
      Rate one = new Rate(1, cases.get(i).happened(), p, p * (1 - p), overall);
      rates.merge(cases.get(i).clinic(), one, Rate::plus);
    }
    return rates;
  }

  /**
   * Every tenth case is foretold by a fit of the others, so the model never sees what it judges.
   */
  private static Performance performance(double[][] covariates, int[] happened) {
    List<Foretold> foretold = new ArrayList<>();
    for (int fold = 0; fold < FOLDS; fold++) {
      int held = fold;
      int[] others = IntStream.range(0, happened.length).filter(i -> i % FOLDS != held).toArray();
      Reckoned<LogisticFit> fit =
          LogisticFit.of(
              Arrays.stream(others).mapToObj(i -> covariates[i]).toArray(double[][]::new),
              Arrays.stream(others).map(i -> happened[i]).toArray());
      if (fit.result().isEmpty()) {
        return Performance.lacking(fit.reason());
      }
      for (int i = fold; i < happened.length; i += FOLDS) {
        foretold.add(new Foretold(fit.result().get().predict(covariates[i]), happened[i]));
      }
    }
    Prediction prediction = new Prediction(foretold);
    return new Performance(
        prediction.concordance(), prediction.brier(), prediction.calibrationSlope());
  }

  /** c statistic, Brier score and calibration slope over ten folds. */
  public record Performance(
      Reckoned<Double> concordance, Reckoned<Double> brier, Reckoned<Double> calibrationSlope) {

    static Performance lacking(String why) {
      return new Performance(Reckoned.lacking(why), Reckoned.lacking(why), Reckoned.lacking(why));
    }
  }

  /**
   * One clinic.
   *
   * @param observed how often it happened, O
   * @param expected how often it should have among these cases, E
   * @param variance sum of p (1 - p)
   * @param overall p0
   */
  public record Rate(int cases, int observed, double expected, double variance, double overall) {

    /** {@code O / E x p0}, a share that may exceed 1. */
    public double adjusted() {
      return observed / expected * overall;
    }

    /** {@code (O - E) / sqrt(sum p (1 - p))}. */
    public double z() {
      return (observed - expected) / Math.sqrt(variance);
    }

    private Rate plus(Rate other) {
      return new Rate(
          cases + other.cases,
          observed + other.observed,
          expected + other.expected,
          variance + other.variance,
          overall);
    }
  }
}
