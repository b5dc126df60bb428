package org.intercusp.registry.report;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.cohort.MixModel;

/**
 * The models of case mix.
 *
 * @param fits the model of each outcome, or why there is none
 * @param expected what it expects of each clinic
 */
record Models(
    Map<MixOutcome, Reckoned<MixModel>> fits, Map<MixOutcome, List<Gathered.Expected>> expected) {

  /** Fits them to what was gathered. */
  static Models fitted(Gathering gathering) {
    Map<MixOutcome, Reckoned<MixModel>> fits = new EnumMap<>(MixOutcome.class);
    Map<MixOutcome, List<Gathered.Expected>> expected = new EnumMap<>(MixOutcome.class);
    List<String> names = MixOutcome.COVARIATES.stream().map(MixOutcome.Covariate::name).toList();
    for (MixOutcome outcome : MixOutcome.values()) {
      Reckoned<MixModel> fit = MixModel.of(names, gathering.patterns(outcome));
      fits.put(outcome, fit);
      expected.put(
          outcome, fit.result().map(each -> gathering.expected(outcome, each)).orElse(List.of()));
    }
    return new Models(fits, expected);
  }

  List<Gathered.Expected> expected(MixOutcome outcome) {
    return expected.getOrDefault(outcome, List.of());
  }
}
