package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.intercusp.analysis.agreement.Funnel;
import org.intercusp.analysis.agreement.Funnel.Limits;
import org.intercusp.analysis.agreement.Overdispersion;
import org.intercusp.analysis.agreement.Proportion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Funnel limits and overdispersion, from memory of Stat Med 2005;24:1185-1202. Exact limits
 * computed once with another library's binomial, SciPy 1.17.1, agree to 1e-9, the accuracy of both
 * inversions.
 */
class StatMed2005FunnelFromMemoryTest {

  @ParameterizedTest
  @CsvSource({
    "50, .2, 1.96, 0.08440339650198016, 0.30709645624284304",
    "50, .2, 3.09, 0.03479046462174559, 0.37913418517126907",
    "200, .1, 1.96, 0.05769003222482543, 0.14097269194625484",
    "200, .1, 3.09, 0.037855839875145215, 0.16856206531276718",
    "20, .5, 1.96, 0.2558206822793349, 0.6941793177206651",
    "20, .5, 3.09, 0.13677177571043916, 0.8132282242895584"
  })
  void exactLimits(int cases, double centre, double z, double low, double high) {
    Limits limits = new Funnel(centre).exact(cases, z);
    assertThat(limits.low()).isCloseTo(low, within(1e-9));
    assertThat(limits.high()).isCloseTo(high, within(1e-9));
  }

  @Test
  void limitsLieBetweenTheCountsThatBracketTheProbability() {
    BinomialDistribution binomial = new BinomialDistribution(60, 0.3);
    double low = new Funnel(0.3).exact(60, Funnel.INNER).low() * 60;
    assertThat(binomial.cumulativeProbability((int) Math.floor(low))).isLessThan(0.025);
    assertThat(binomial.cumulativeProbability((int) Math.ceil(low))).isGreaterThan(0.0249);
  }

  @Test
  void normalLimitsAndTheLimitOfLargeClinics() {
    Limits normal = new Funnel(0.2).normal(100, Funnel.INNER);
    assertThat(normal.low()).isCloseTo(0.1216, within(1e-12));
    assertThat(normal.high()).isCloseTo(0.2784, within(1e-12));
    Limits exact = new Funnel(0.2).exact(200_000, Funnel.OUTER);
    Limits large = new Funnel(0.2).normal(200_000, Funnel.OUTER);
    assertThat(exact.low()).isCloseTo(large.low(), within(1e-4));
    assertThat(exact.high()).isCloseTo(large.high(), within(1e-4));
  }

  @ParameterizedTest
  @CsvSource({"0", "1", "0.0001", "0.9999"})
  void limitsStayShares(double centre) {
    for (int cases : new int[] {1, 2, 9, 500}) {
      Limits limits = new Funnel(centre).exact(cases, Funnel.OUTER);
      assertThat(limits.low()).isBetween(0.0, centre + 1e-12);
      assertThat(limits.high()).isLessThanOrEqualTo(1);
    }
  }

  @Test
  void zScores() {
    Funnel funnel = new Funnel(0.2);
    assertThat(funnel.z(new Proportion(28, 100))).isCloseTo(2, within(1e-12));
    assertThat(funnel.z(new Proportion(12, 100))).isCloseTo(-2, within(1e-12));
    assertThat(new Funnel(0).z(new Proportion(0, 10))).isZero();
  }

  @Test
  void overdispersionDrawsTheTailsInAndCountsFromTenClinics() {
    double[] z = {-9, -2, -2, -2, -2, 2, 2, 2, 2, 2, 9};
    Overdispersion found = Overdispersion.of(z).result().orElseThrow();
    assertThat(found.phi()).isCloseTo(4, within(1e-12));
    assertThat(found.applies()).isTrue();
    assertThat(found.factor()).isCloseTo(2, within(1e-12));
    double[] nine = Arrays.copyOf(z, 9);
    assertThat(Overdispersion.of(nine).result().orElseThrow().factor()).isEqualTo(1);
    assertThat(Overdispersion.of(new double[0]).reason()).contains("no clinic");
  }

  @Test
  void overdispersionBelowItsThresholdIsNotApplied() {
    double threshold = 1 + 2 * Math.sqrt(2.0 / 10);
    assertThat(new Overdispersion(10, threshold).applies()).isFalse();
    assertThat(new Overdispersion(10, threshold + 1e-9).applies()).isTrue();
    assertThat(new Overdispersion(9, 100).applies()).isFalse();
  }

  @Test
  void widenedLimitsMoveAwayFromTheCentre() {
    Funnel funnel = new Funnel(0.3);
    Limits limits = funnel.normal(100, 1.96);
    Limits wide = funnel.widened(limits, new Overdispersion(12, 4));
    assertThat(0.3 - wide.low()).isCloseTo(2 * (0.3 - limits.low()), within(1e-12));
    assertThat(wide.high() - 0.3).isCloseTo(2 * (limits.high() - 0.3), within(1e-12));
    assertThat(funnel.widened(limits, new Overdispersion(12, 1))).isEqualTo(limits);
  }
}
