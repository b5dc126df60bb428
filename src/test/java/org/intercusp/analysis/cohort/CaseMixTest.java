package org.intercusp.analysis.cohort;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.intercusp.analysis.cohort.CaseMix.Rate;
import org.intercusp.analysis.cohort.MixedCase.Outcome;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.Sex;
import org.junit.jupiter.api.Test;

/** Adjusted rates of invented clinics whose cases are known to differ. */
class CaseMixTest {

  @Test
  void aClinicWithHarderCasesIsNotBlamedForThem() {
    CaseMix found = CaseMix.of(cases(3000, 1)).result().orElseThrow();
    Rate easy = found.clinics().get("easy");
    Rate hard = found.clinics().get("hard");
    assertThat(found.clinics().keySet()).containsExactly("easy", "hard");
    double crude = (double) hard.observed() / hard.cases();
    assertThat(crude).isGreaterThan(found.overall() + 0.05);
    assertThat(hard.adjusted()).isCloseTo(found.overall(), within(0.03));
    assertThat(Math.abs(hard.z())).isLessThan(2);
    assertThat(easy.expected() + hard.expected())
        .isCloseTo(easy.observed() + hard.observed(), within(1e-6));
    assertThat(found.performance().concordance().result().orElseThrow()).isBetween(0.6, 0.9);
    assertThat(found.performance().calibrationSlope().result().orElseThrow()).isBetween(0.8, 1.2);
    assertThat(found.performance().brier().result().orElseThrow()).isBetween(0.05, 0.25);
  }

  @Test
  void tooFewOfTheRarerOutcomeWithholdTheModel() {
    assertThat(CaseMix.of(cases(60, 2)).reason()).contains("too few");
    assertThat(CaseMix.of(List.of()).reason()).contains("too few");
  }

  @Test
  void zIsTheDistanceInStandardErrors() {
    Rate rate = new Rate(100, 30, 20, 16, 0.2);
    assertThat(rate.z()).isCloseTo(2.5, within(1e-12));
    assertThat(rate.adjusted()).isCloseTo(0.3, within(1e-12));
  }

  @Test
  void sexAndGrowthNobodyRecordedAreLevelsOfTheirOwn() {
    double[] known =
        new MixedCase("a", 12, Sex.FEMALE, 30, GrowthStage.CS3, Outcome.HAPPENED).covariates();
    double[] unknown = new MixedCase("a", 12, Sex.UNKNOWN, 30, null, Outcome.HAPPENED).covariates();
    assertThat(known).containsExactly(12, 0, 0, 3, 0, 0, 0);
    assertThat(unknown).containsExactly(12, 0, 1, 3, 0, 0, 1);
  }

  /** Twelve of another sex, to none of whom it happened: no coefficient, and no reason to have none. */
  @Test
  void aLevelThatFewHaveTakesNoModelAway() {
    List<MixedCase> cases = new ArrayList<>(cases(3000, 3));
    int all = cases.size();
    for (int i = 0; i < 12; i++) {
      MixedCase alike = cases.get(i * 7);
      cases.add(
          new MixedCase(
              "other",
              alike.age(),
              Sex.OTHER,
              alike.parBefore(),
              alike.growth(),
              Outcome.DID_NOT_HAPPEN));
    }
    CaseMix found = CaseMix.of(cases).result().orElseThrow();
    double expected =
        found.clinics().values().stream().mapToDouble(Rate::expected).sum();
    assertThat(expected).isCloseTo(found.overall() * (all + 12), within(1e-6));
    assertThat(found.performance().concordance().result()).isPresent();

    List<MixModel.Pattern> patterns = new ArrayList<>();
    for (MixedCase each : cases) {
      List<Double> row = new ArrayList<>();
      for (double covariate : each.covariates()) {
        row.add(covariate);
      }
      patterns.add(new MixModel.Pattern(row, each.happened(), 1));
    }
    MixModel model =
        MixModel.of(List.of("age", "male", "other", "par", "before", "after", "missing"), patterns)
            .result()
            .orElseThrow();
    assertThat(model.terms())
        .extracting(MixModel.Term::name)
        .contains("age", "male", "missing")
        .doesNotContain("other");
  }

  private static List<MixedCase> cases(int count, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<MixedCase> cases = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      boolean hard = random.nextInt(3) == 0;
      double age = random.nextDouble(9, 14) + (hard ? 1.5 : 0);
      int par = random.nextInt(10, 50);
      double p = LogisticFit.probability(-9 + 0.6 * age + 0.02 * par);
      GrowthStage[] stages = GrowthStage.values();
      int stage = random.nextInt(stages.length + 1);
      cases.add(
          new MixedCase(
              hard ? "hard" : "easy",
              age,
              random.nextBoolean() ? Sex.FEMALE : Sex.MALE,
              par,
              stage == stages.length ? null : stages[stage],
              random.nextDouble() < p ? Outcome.HAPPENED : Outcome.DID_NOT_HAPPEN));
    }
    return cases;
  }
}
