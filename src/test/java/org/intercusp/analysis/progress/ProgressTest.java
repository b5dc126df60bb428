package org.intercusp.analysis.progress;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.intercusp.analysis.progress.Progress.Point;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.junit.jupiter.api.Test;

/** Rate, interval and projection, against the normal equations written out by hand. */
class ProgressTest {

  private static final LocalDate DAY = LocalDate.of(2026, 1, 1);

  @Test
  void twoPointsHaveARateAndNoInterval() {
    Progress progress = progress("9", "7");
    assertThat(progress.rate().doubleValue()).isCloseTo(2 / months(30), within(0.0001));
    assertThat(progress.interval().reason()).contains("three");
    assertThat(progress.projected(Length.of("2")).result()).isEmpty();
  }

  /** 0.2661 mm in 30 days are 0.26998 a month: told as 0.27, and below 0.27 all the same. */
  @Test
  void aRateIsRoundedWhereItIsToldAndNotWhereItIsCompared() {
    Progress progress = progress("9", "8.7339");
    assertThat(progress.rate()).isLessThan(new BigDecimal("0.27"));
    assertThat(Progress.told(progress.rate())).isEqualTo(new BigDecimal("0.2700"));
  }

  @Test
  void theIntervalIsStudentsT() {
    double[] y = {9, 8.2, 7.9, 6.5};
    Progress progress = progress("9", "8.2", "7.9", "6.5");
    double meanX = months(45);
    double meanY = (y[0] + y[1] + y[2] + y[3]) / 4;
    double sxy = 0;
    double sxx = 0;
    for (int i = 0; i < 4; i++) {
      sxy += (months(30 * i) - meanX) * (y[i] - meanY);
      sxx += Math.pow(months(30 * i) - meanX, 2);
    }
    double slope = sxy / sxx;
    double sse = 0;
    for (int i = 0; i < 4; i++) {
      sse += Math.pow(y[i] - meanY - slope * (months(30 * i) - meanX), 2);
    }
    double half =
        Math.sqrt(sse / 2 / sxx) * new TDistribution(2).inverseCumulativeProbability(0.975);
    assertThat(progress.rate().doubleValue()).isCloseTo(-slope, within(0.00006));
    Progress.Interval interval = progress.interval().result().orElseThrow();
    assertThat(interval.low().doubleValue()).isCloseTo(-slope - half, within(0.00006));
    assertThat(interval.high().doubleValue()).isCloseTo(-slope + half, within(0.00006));
  }

  @Test
  void aSteadyCourseIsProjected() {
    assertThat(progress("9", "8", "7", "6").projected(Length.of("2")).result())
        .contains(DAY.plusDays(210));
  }

  @Test
  void aWanderingCourseIsNot() {
    assertThat(progress("9", "8", "9.5", "8").projected(Length.of("2")).reason())
        .contains("does not exclude 0");
    assertThat(progress("6", "7", "8", "9").projected(Length.of("2")).reason())
        .isEqualTo("the overjet grows");
    assertThat(progress("9", "9", "9").projected(Length.of("2")).result()).isEmpty();
  }

  /** 7 mm at 0.02 mm in thirty days are 10,500 days. */
  @Test
  void nothingIsProjectedBeyondTenYears() {
    assertThat(progress("9", "8.98", "8.96").projected(Length.of("2")).reason())
        .contains("ten years");
    assertThat(progress("9", "8.94", "8.88").projected(Length.of("2")).result())
        .contains(DAY.plusDays(3500));
  }

  @Test
  void theEndsOfAnIntervalBelongToIt() {
    Progress.Interval interval =
        new Progress.Interval(new BigDecimal("0.2"), new BigDecimal("0.4"));
    assertThat(interval.holds(new BigDecimal("0.20"))).isTrue();
    assertThat(interval.holds(new BigDecimal("0.40"))).isTrue();
    assertThat(interval.holds(new BigDecimal("0.41"))).isFalse();
    assertThat(interval.holds(new BigDecimal("0.19"))).isFalse();
  }

  /** By hand: two readings of u = 0.5 / sqrt 3 make 0.40825 mm, over 60 days of 30.4375 a month. */
  @Test
  void theReadingErrorOfARateRestsOnItsEnds() {
    assertThat(progress("9", "7").readingUncertainty(ReadingError.RULER))
        .isCloseTo(0.41420, within(0.00001));
    assertThat(progress("9", "2", "7").readingUncertainty(ReadingError.RULER))
        .isCloseTo(0.20710, within(0.00001));
  }

  @Test
  void oneDayHasNoRate() {
    Point point = new Point(DAY, Length.of("9"));
    assertThat(Progress.of(List.of(point, point, point)).reason()).contains("two different days");
    assertThat(Progress.of(List.of()).result()).isEmpty();
  }

  @Test
  void theOrderOfPointsDoesNotMatter() {
    Point a = new Point(DAY, Length.of("9"));
    Point b = new Point(DAY.plusDays(40), Length.of("8"));
    Point c = new Point(DAY.plusDays(90), Length.of("7.5"));
    assertThat(Progress.of(List.of(c, a, b))).isEqualTo(Progress.of(List.of(a, b, c)));
  }

  private static double months(int days) {
    return days / (365.25 / 12);
  }

  private static Progress progress(String... overjets) {
    List<Point> points = new java.util.ArrayList<>();
    for (int i = 0; i < overjets.length; i++) {
      points.add(new Point(DAY.plusDays(30L * i), Length.of(overjets[i])));
    }
    return Progress.of(points).result().orElseThrow();
  }
}
