package org.intercusp.analysis.cohort;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.cohort.CaseMix.Performance;
import org.intercusp.analysis.cohort.Prediction.Foretold;

/**
 * The logistic model of {@link CaseMix} on cases grouped by what they brought with them, for
 * registries too large to hold a case at a time. Withheld with fewer than ten of the rarer outcome
 * a coefficient, the intercept not counted (common practice, no source). The performance is
 * foretold for every tenth pattern by a fit of the others, so the model never sees what it judges.
 *
 * @param cases all cases
 * @param events to how many it happened
 * @param terms coefficients in log odds, the intercept first
 */
public record MixModel(int cases, int events, List<Term> terms, Performance performance) {

  private static final int EVENTS_A_COEFFICIENT = 10;
  private static final int FOLDS = 10;

  public MixModel {
    terms = List.copyOf(terms);
  }

  /** Fits patterns whose covariates are named, by those that {@link UsedColumns} leaves. */
  public static Reckoned<MixModel> of(List<String> names, List<Pattern> patterns) {
    int cases = patterns.stream().mapToInt(Pattern::cases).sum();
    int events = patterns.stream().mapToInt(Pattern::happened).sum();
    int[] happened = patterns.stream().mapToInt(Pattern::happened).toArray();
    int[] counts = patterns.stream().mapToInt(Pattern::cases).toArray();
    int[] every = IntStream.range(0, names.size()).toArray();
    int[] used = UsedColumns.of(covariates(patterns, every), happened, counts);
    int rarer = Math.min(events, cases - events);
    if (rarer < EVENTS_A_COEFFICIENT * Math.max(1, used.length)) {
      return Reckoned.lacking(
          rarer + " of the rarer outcome are too few for " + used.length + " coefficients");
    }
    double[][] x = covariates(patterns, used);
    return LogisticFit.of(x, happened, counts)
        .map(
            fit ->
                new MixModel(
                    cases, events, terms(names, used, fit), performance(x, happened, counts)));
  }

  private static double[][] covariates(List<Pattern> patterns, int[] used) {
    return patterns.stream()
        .map(each -> Arrays.stream(used).mapToDouble(each.covariates()::get).toArray())
        .toArray(double[][]::new);
  }

  private static List<Term> terms(List<String> names, int[] used, LogisticFit fit) {
    double[] coefficients = fit.coefficients();
    double[] errors = fit.standardErrors();
    List<Term> terms = new ArrayList<>();
    terms.add(new Term("intercept", coefficients[0], errors[0]));
    for (int i = 0; i < used.length; i++) {
      terms.add(new Term(names.get(used[i]), coefficients[i + 1], errors[i + 1]));
    }
    return terms;
  }

  private static Performance performance(double[][] x, int[] happened, int[] cases) {
    List<Foretold> foretold = new ArrayList<>();
    for (int fold = 0; fold < FOLDS; fold++) {
      int held = fold;
      int[] others = IntStream.range(0, x.length).filter(i -> i % FOLDS != held).toArray();
      Reckoned<LogisticFit> fit =
          LogisticFit.of(
              Arrays.stream(others).mapToObj(i -> x[i]).toArray(double[][]::new),
              Arrays.stream(others).map(i -> happened[i]).toArray(),
              Arrays.stream(others).map(i -> cases[i]).toArray());
      if (fit.result().isEmpty()) {
        return Performance.lacking(fit.reason());
      }
      for (int i = fold; i < x.length; i += FOLDS) {
        foretold.add(new Foretold(fit.result().get().predict(x[i]), happened[i], cases[i]));
      }
    }
    Prediction prediction = new Prediction(foretold);
    return new Performance(
        prediction.concordance(), prediction.brier(), prediction.calibrationSlope());
  }

  /** Cases alike in what they brought with them. */
  public record Pattern(List<Double> covariates, int happened, int cases) {
    public Pattern {
      covariates = List.copyOf(covariates);
    }
  }

  /** A coefficient in log odds with its standard error. */
  public record Term(String name, double coefficient, double standardError) {}
}
