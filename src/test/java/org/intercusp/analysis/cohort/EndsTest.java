package org.intercusp.analysis.cohort;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.index.ParChange;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Completion.Status;
import org.junit.jupiter.api.Test;

/** Reduction, discontinuation and length over a handful of invented cases, counted by hand. */
class EndsTest {

  private static final LocalDate CUT_OFF = LocalDate.of(2026, 6, 30);

  @Test
  void reductionInBothReadings() {
    Reduction found =
        Reduction.of(
                List.of(
                    new ParChange(40, 4),
                    new ParChange(20, 10),
                    new ParChange(30, 6),
                    new ParChange(0, 3)),
                0.95)
            .result()
            .orElseThrow();
    assertThat(found.cases()).isEqualTo(3);
    assertThat(found.left()).isEqualTo(1);
    assertThat(found.ofPercentages().percent()).isCloseTo((90 + 50 + 80) / 3.0, within(1e-12));
    assertThat(found.ofSums().percent()).isCloseTo(100 * 70 / 90.0, within(1e-12));
    // By hand: ratio 2/9, residuals -44/9, 50/9, -6/9, squares 4472/81, error 100
    // sqrt(3*27.605)/90.
    double error = 100 * Math.sqrt(3 * 4472 / 81.0 / 2) / 90;
    Interval interval = found.ofSums().interval().result().orElseThrow();
    assertThat(interval.high() - interval.low()).isCloseTo(2 * 1.959964 * error, within(1e-5));
  }

  @Test
  void theDeltaIntervalHoldsWhatItPromises() {
    SplittableRandom random = new SplittableRandom(9);
    int covered = 0;
    for (int run = 0; run < 1000; run++) {
      List<ParChange> cases = new ArrayList<>();
      for (int i = 0; i < 60; i++) {
        int before = random.nextInt(10, 51);
        cases.add(new ParChange(before, random.nextInt(0, before * 2 / 5 + 1)));
      }
      Reduction found = Reduction.of(cases, 0.95).result().orElseThrow();
      covered += found.ofSums().interval().result().orElseThrow().covers(truth()) ? 1 : 0;
    }
    assertThat(covered).isBetween(915, 975);
  }

  /** Expected after is half of floor(2 before / 5), over before 10 to 50. */
  private static double truth() {
    double before = 0;
    double after = 0;
    for (int b = 10; b <= 50; b++) {
      before += b;
      after += (b * 2 / 5) / 2.0;
    }
    return 100 * (1 - after / before);
  }

  @Test
  void nothingBeforeOrOneCaseAlone() {
    assertThat(Reduction.of(List.of(new ParChange(0, 0)), 0.95).reason()).contains("above 0");
    Reduction one = Reduction.of(List.of(new ParChange(10, 5)), 0.95).result().orElseThrow();
    assertThat(one.ofSums().interval().reason()).contains("two cases");
    assertThat(one.ofPercentages().percent()).isEqualTo(50);
  }

  @Test
  void discontinuationHasTwoDenominators() {
    List<Treated> cases =
        List.of(
            ended("2024-06-30", Status.PATIENT_STOPPED, "2025-01-10"),
            ended("2024-07-01", Status.PATIENT_STOPPED, "2025-01-10"),
            ended("2024-01-01", Status.LOST_TO_FOLLOW_UP, "2025-01-10"),
            ended("2024-01-01", Status.DISCONTINUED_BY_CLINICIAN, "2025-01-10"),
            ended("2024-01-01", Status.COMPLETED, "2025-12-01"),
            ended("2024-01-01", Status.COMPLETED, "2025-12-01"),
            ended("2024-01-01", Status.COMPLETED, "2026-07-01"),
            ended("2024-01-01", Status.TRANSFERRED, "2025-12-01"),
            ended("2024-01-01", Status.IN_TREATMENT, "2026-06-01"),
            new Treated(LocalDate.parse("2024-01-01"), null));
    Discontinuation found = Discontinuation.of(cases, CUT_OFF);
    assertThat(found).isEqualTo(new Discontinuation(3, 2, 1));
    assertThat(found.ofAll().share().result()).contains(0.5);
    assertThat(found.ofKnown().share().result()).contains(0.6);
    assertThat(found.mayBeJudged()).isTrue();
    assertThat(new Discontinuation(3, 1, 1).mayBeJudged()).as("80 % itself").isTrue();
    assertThat(new Discontinuation(3, 0, 1).mayBeJudged()).isFalse();
    assertThat(new Discontinuation(0, 0, 0).mayBeJudged()).isFalse();
  }

  @Test
  void curvesOfLength() {
    List<Treated> cases =
        List.of(
            new Treated(
                LocalDate.parse("2025-01-01"),
                new Completion(
                    Status.PATIENT_STOPPED,
                    null,
                    LocalDate.parse("2025-04-11"),
                    LocalDate.parse("2025-02-20"))),
            ended("2025-01-01", Status.COMPLETED, "2025-07-20"),
            ended("2025-01-01", Status.COMPLETED, "2026-07-20"),
            new Treated(LocalDate.parse("2025-01-01"), null));
    TreatmentLength found = TreatmentLength.of(cases, CUT_OFF);
    assertThat(found.left()).isEqualTo(1);
    assertThat(found.anyEnd().steps()).extracting("time").containsExactly(100.0, 200.0);
    assertThat(found.anyEnd().at(200)).isCloseTo(1 / 3.0, within(1e-12));
    assertThat(found.completion().steps()).extracting("time").containsExactly(200.0);
    assertThat(found.completion().at(200)).isCloseTo(0.5, within(1e-12));
    assertThat(found.completed().at(200)).isCloseTo(1 / 3.0, within(1e-12));
    assertThat(found.completed().at(545)).isCloseTo(1 / 3.0, within(1e-12));
  }

  /** The cut-off is the last day that counts: what was decided or seen on it had happened. */
  @Test
  void theDayOfTheCutOffBelongsToThePeriod() {
    Treated decided = ended("2024-01-01", Status.COMPLETED, "2026-06-30");
    assertThat(Discontinuation.of(List.of(decided), CUT_OFF))
        .isEqualTo(new Discontinuation(0, 1, 0));
    assertThat(TreatmentLength.of(List.of(decided), CUT_OFF).anyEnd().steps()).hasSize(1);
    Treated seen = new Treated(LocalDate.parse("2024-01-01"), null, CUT_OFF);
    assertThat(Discontinuation.of(List.of(seen), CUT_OFF)).isEqualTo(new Discontinuation(0, 0, 1));
    Treated fitted = ended("2026-06-30", Status.IN_TREATMENT, "2026-06-30");
    assertThat(TreatmentLength.of(List.of(fitted), CUT_OFF).left()).isZero();
    assertThat(TreatmentLength.of(List.of(fitted), CUT_OFF.minusDays(1)).left()).isOne();
  }

  @Test
  void whoseEndNobodyKnowsIsFollowedUntilLastSeen() {
    LocalDate fitted = LocalDate.parse("2025-01-01");
    List<Treated> cases =
        List.of(
            new Treated(fitted, null, LocalDate.parse("2025-04-11")),
            ended("2025-01-01", Status.COMPLETED, "2025-07-20"),
            ended("2025-01-01", Status.COMPLETED, "2026-07-20"));
    TreatmentLength found = TreatmentLength.of(cases, CUT_OFF);
    assertThat(found.left()).isZero();
    // At risk on day 200: two, since the first was last seen on day 100.
    assertThat(found.anyEnd().at(200)).isCloseTo(0.5, within(1e-12));
    assertThat(found.completion().at(200)).isCloseTo(0.5, within(1e-12));
    // Somebody seen after the cut-off was in treatment at it.
    Treated seen = new Treated(LocalDate.parse("2024-01-01"), null, CUT_OFF.plusDays(1));
    assertThat(Discontinuation.of(List.of(seen), CUT_OFF)).isEqualTo(new Discontinuation(0, 0, 0));
    assertThat(TreatmentLength.of(List.of(seen), CUT_OFF).left()).isZero();
  }

  private static Treated ended(String fitted, Status status, String decided) {
    LocalDate day = LocalDate.parse(decided);
    return new Treated(LocalDate.parse(fitted), new Completion(status, null, day, day));
  }
}
