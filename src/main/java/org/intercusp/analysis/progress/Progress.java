package org.intercusp.analysis.progress;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.stat.regression.SimpleRegression;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;

/**
 * How fast the overjet shrinks: the least-squares rate over measured points, in millimetres a month
 * (365.25 / 12 days), reduction positive. An interval (95 %, Student's t) needs three points; a
 * date of the target is projected only when that interval lies above zero.
 *
 * @param points what it rests on, in order of date, at least two of them on different days
 * @param rate reduction a month, not rounded
 * @param interval of the rate; lacking below three points
 */
public record Progress(List<Point> points, BigDecimal rate, Reckoned<Interval> interval) {

  private static final double DAYS_A_MONTH = 365.25 / 12;
  private static final double ALPHA = 0.05;
  private static final long FARTHEST_DAYS = 3653;

  public Progress {
    points = List.copyOf(points);
  }

  /** An overjet on a day. */
  public record Point(LocalDate day, Length overjet) {}

  /** The 95 % interval of the rate, millimetres a month. */
  public record Interval(BigDecimal low, BigDecimal high) {

    public boolean holds(BigDecimal rate) {
      return low.compareTo(rate) <= 0 && high.compareTo(rate) >= 0;
    }
  }

  /** Computes from points in any order. */
  public static Reckoned<Progress> of(List<Point> points) {
    List<Point> ordered = points.stream().sorted(Comparator.comparing(Point::day)).toList();
    if (ordered.stream().map(Point::day).distinct().count() < 2) {
      return Reckoned.lacking("a rate needs overjets on two different days");
    }
    SimpleRegression line = line(ordered);
    return Reckoned.known(new Progress(ordered, number(-line.getSlope()), interval(ordered, line)));
  }

  private static SimpleRegression line(List<Point> ordered) {
    SimpleRegression line = new SimpleRegression();
    LocalDate origin = ordered.get(0).day();
    ordered.forEach(p -> line.addData(months(origin, p.day()), p.overjet().asDouble()));
    return line;
  }

  private static Reckoned<Interval> interval(List<Point> ordered, SimpleRegression line) {
    if (ordered.size() < 3) {
      return Reckoned.lacking("an interval of the rate needs three overjets");
    }
    double half = line.getSlopeConfidenceInterval(ALPHA);
    return Reckoned.known(
        new Interval(number(-line.getSlope() - half), number(-line.getSlope() + half)));
  }

  /** The day on which the line reaches a target; lacking unless the interval lies above zero. */
  public Reckoned<LocalDate> projected(Length target) {
    return interval.flatMap(
        within -> {
          if (within.high().signum() < 0) {
            return Reckoned.lacking("the overjet grows");
          }
          if (within.low().signum() <= 0) {
            return Reckoned.lacking("the interval of the rate does not exclude 0");
          }
          SimpleRegression line = line(points);
          double months = (target.asDouble() - line.getIntercept()) / line.getSlope();
          long days = Math.round(months * DAYS_A_MONTH);
          return Math.abs(days) > FARTHEST_DAYS
              ? Reckoned.lacking("the projected day lies more than ten years away")
              : Reckoned.known(points.get(0).day().plusDays(days));
        });
  }

  /** Overjet reduction from the first point to the last. */
  public Length change() {
    return points.get(0).overjet().minus(points.get(points.size() - 1).overjet());
  }

  /**
   * Standard uncertainty of the rate over the first and last point alone, each overjet read with an
   * error of its own (law of propagation, JCGM 100:2008, 5.1.2).
   */
  public double readingUncertainty(ReadingError error) {
    double between = months(points.get(0).day(), points.get(points.size() - 1).day());
    return error.standardUncertainty() * Math.sqrt(2) / between;
  }

  /** Months of the mean length of the calendar. */
  public static double months(LocalDate from, LocalDate to) {
    return ChronoUnit.DAYS.between(from, to) / DAYS_A_MONTH;
  }

  private static BigDecimal number(double monthly) {
    return BigDecimal.valueOf(monthly);
  }

  /** A rate as it is told: to four decimals; what is compared with a limit is not rounded. */
  public static BigDecimal told(BigDecimal rate) {
    return rate.setScale(4, RoundingMode.HALF_UP);
  }
}
