package org.intercusp.registry.report;

import java.util.List;
import java.util.Optional;

/** An outcome whose rates are adjusted for the cases a clinic took. */
public enum MixOutcome {
  DISCONTINUED("mix_discontinued", Measure.MIX_DISCONTINUED, Compared.DISCONTINUED),
  GREATLY_IMPROVED("mix_greatly", Measure.MIX_GREATLY, Compared.GREATLY_IMPROVED);

  /** What a case brings with it; the reference is a girl around the peak of growth. */
  static final List<Covariate> COVARIATES =
      List.of(
          new Covariate("age, a year", "age_months", 12),
          new Covariate("male", "male", 1),
          new Covariate("sex other or unknown", "sex_other", 1),
          new Covariate("PAR at start, ten points", "par", 10),
          new Covariate("before the peak of growth", "before_peak", 1),
          new Covariate("after the peak of growth", "after_peak", 1),
          new Covariate("growth stage not recorded", "growth_missing", 1));

  private final String query;
  private final Measure measure;
  private final Compared compared;

  MixOutcome(String query, Measure measure, Compared compared) {
    this.query = query;
    this.measure = measure;
    this.compared = compared;
  }

  String query() {
    return query;
  }

  /** Column of the cases in the model. */
  String cases() {
    return query + "_cases";
  }

  /** Column of those of them it happened to. */
  String happened() {
    return query + "_happened";
  }

  boolean hidden(SmallCells cells, Slice slice) {
    return cells.hidden(slice, cases()) || cells.hidden(slice, happened());
  }

  Measure measure() {
    return measure;
  }

  Compared compared() {
    return compared;
  }

  static Optional<Covariate> covariate(String name) {
    return COVARIATES.stream().filter(each -> each.name().equals(name)).findFirst();
  }

  /** A column of the rows and the unit it is counted in. */
  record Covariate(String name, String column, double unit) {}
}
