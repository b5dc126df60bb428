package org.intercusp.analysis.agreement;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.intercusp.analysis.agreement.Followed.Ending;
import org.junit.jupiter.api.Test;

/** No statistic is NaN or infinite over seeded data, degenerate ones among them. */
class AgreementPropertyTest {

  private static final int RUNS = 800;

  @Test
  void reliabilityOfAnyTable() {
    SplittableRandom random = new SplittableRandom(1);
    for (int run = 0; run < RUNS; run++) {
      int spread = 1 + random.nextInt(4);
      double[][] table = new double[2 + random.nextInt(8)][2 + random.nextInt(3)];
      for (double[] row : table) {
        for (int j = 0; j < row.length; j++) {
          row[j] = random.nextInt(spread);
        }
      }
      Reliability found = Reliability.of(table).result().orElseThrow();
      found.single().result().ifPresent(icc -> assertThat(icc).isFinite().isLessThanOrEqualTo(1));
      found
          .interval(0.95)
          .result()
          .ifPresent(
              interval -> {
                assertThat(interval.low()).isFinite();
                assertThat(interval.high()).isFinite();
              });
    }
  }

  @Test
  void kappaOfAnyTable() {
    SplittableRandom random = new SplittableRandom(2);
    for (int run = 0; run < RUNS; run++) {
      int k = 2 + random.nextInt(4);
      double[][] table = new double[k][k];
      for (double[] row : table) {
        for (int j = 0; j < k; j++) {
          row[j] = Math.max(0, random.nextInt(-4, 6));
        }
      }
      for (Kappa.Weights weights : Kappa.Weights.values()) {
        Kappa.weighted(table, weights)
            .result()
            .ifPresent(kappa -> assertThat(kappa).isFinite().isLessThanOrEqualTo(1));
      }
    }
  }

  @Test
  void curvesOfAnyCases() {
    SplittableRandom random = new SplittableRandom(3);
    for (int run = 0; run < RUNS; run++) {
      List<Followed> cases = new ArrayList<>();
      for (int i = random.nextInt(12); i > 0; i--) {
        Ending ending = Ending.values()[random.nextInt(3)];
        cases.add(new Followed(random.nextInt(6), ending));
      }
      double last = 1;
      for (SurvivalCurve.Step step : SurvivalCurve.of(cases).steps()) {
        assertThat(step.survival()).isBetween(0.0, last);
        assertThat(step.standardError()).isFinite();
        last = step.survival();
        step.interval(0.95)
            .result()
            .ifPresent(interval -> assertThat(interval.covers(step.survival())).isTrue());
      }
      double before = 0;
      for (CumulativeIncidence.Step step : CumulativeIncidence.of(cases).steps()) {
        assertThat(step.incidence()).isBetween(before, 1 + 1e-12);
        assertThat(step.standardError()).isFinite();
        before = step.incidence();
      }
    }
  }

  @Test
  void sharesAndFunnelsOfAnyCounts() {
    SplittableRandom random = new SplittableRandom(4);
    for (int run = 0; run < RUNS; run++) {
      int of = 1 + random.nextInt(random.nextBoolean() ? 5 : 3000);
      Proportion share = new Proportion(random.nextInt(of + 1), of);
      Interval interval = share.wilson(0.95).result().orElseThrow();
      assertThat(interval.covers(share.share().result().orElseThrow())).isTrue();
      Funnel funnel = new Funnel(random.nextInt(0, 101) / 100.0);
      Funnel.Limits inner = funnel.exact(of, Funnel.INNER);
      Funnel.Limits outer = funnel.exact(of, Funnel.OUTER);
      assertThat(outer.low()).isLessThanOrEqualTo(inner.low());
      assertThat(outer.high()).isGreaterThanOrEqualTo(inner.high());
      assertThat(funnel.z(share)).isFinite();
    }
  }

  /** 8/10 x 7/8 x 5/7 is one half, and comes out above it in binary. */
  @Test
  void theMedianIsTheDayOnWhichOneHalfIsLeft() {
    EndCounts ends = new EndCounts();
    ends.add(new Followed(100, Ending.EVENT), 2);
    ends.add(new Followed(200, Ending.EVENT), 1);
    ends.add(new Followed(300, Ending.EVENT), 2);
    ends.add(new Followed(300, Ending.CENSORED), 3);
    ends.add(new Followed(900, Ending.EVENT), 2);
    assertThat(SurvivalCurve.of(ends).median()).contains(300.0);
  }
}
