package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Decimal;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;

/**
 * The landmarks of one film as geometry: degrees counter-clockwise from forward, millimetres as
 * drawn.
 */
final class Tracing {

  /** Closer than this two landmarks are one point: a thousandth of what a tracing resolves. */
  private static final double ONE_POINT = 1e-4;

  private static final int PLACES = 6;

  private final Film film;

  Tracing(Film film) {
    this.film = film;
  }

  /**
   * Why these landmarks and lines cannot be used: all that is missing, or the first pair on one
   * point.
   */
  Optional<String> lacking(Set<Landmark> points, List<Line> lines) {
    Set<Landmark> wanted = new HashSet<>(points);
    lines.forEach(line -> wanted.addAll(List.of(line.from(), line.to())));
    String missing =
        wanted.stream()
            .filter(landmark -> !film.landmarks().containsKey(landmark))
            .sorted()
            .map(Landmark::code)
            .collect(Collectors.joining(", "));
    if (!missing.isEmpty()) {
      return Optional.of("landmark missing: " + missing);
    }
    return lines.stream()
        .filter(line -> length(line) < ONE_POINT)
        .map(line -> line.from().code() + " and " + line.to().code() + " lie on one point")
        .findFirst();
  }

  Optional<String> lacking(Line... lines) {
    return lacking(Set.of(), Arrays.asList(lines));
  }

  /** How many times larger than life lengths are drawn. */
  Reckoned<Double> enlargement() {
    Decimal magnification = film.magnification();
    if (magnification == null) {
      return Reckoned.lacking("magnification of the film is not given, so lengths are withheld");
    }
    double factor = 1 + magnification.value().doubleValue() / 100;
    return factor > 0
        ? Reckoned.known(factor)
        : Reckoned.lacking("a magnification of " + magnification + " % leaves no picture");
  }

  /** Direction of a line in degrees. */
  double direction(Line line) {
    return Math.toDegrees(Math.atan2(y(line.to()) - y(line.from()), x(line.to()) - x(line.from())));
  }

  double length(Line line) {
    return Math.hypot(x(line.to()) - x(line.from()), y(line.to()) - y(line.from()));
  }

  /** How far one landmark lies from another along a direction, forward positive. */
  double along(double degrees, Landmark from, Landmark to) {
    double radians = Math.toRadians(degrees);
    return (x(to) - x(from)) * Math.cos(radians) + (y(to) - y(from)) * Math.sin(radians);
  }

  /** How far a landmark lies above a line, perpendicular to it. */
  double above(Line line, Landmark landmark) {
    return along(direction(line) + 90, line.from(), landmark);
  }

  /** Rounded to a millionth, so that noise of the binary arithmetic never decides a comparison. */
  static BigDecimal decimal(double value) {
    return BigDecimal.valueOf(value).setScale(PLACES, RoundingMode.HALF_EVEN);
  }

  /** The same angle above -180 and up to 180 degrees. */
  static double signed(double degrees) {
    double turned = unsigned(degrees);
    return turned > 180 ? turned - 360 : turned;
  }

  /** The same angle from 0 to below 360 degrees. */
  static double unsigned(double degrees) {
    double turned = degrees % 360;
    return turned < 0 ? turned + 360 : turned;
  }

  private double x(Landmark landmark) {
    return point(landmark).x().value().doubleValue();
  }

  private double y(Landmark landmark) {
    return point(landmark).y().value().doubleValue();
  }

  private Point point(Landmark landmark) {
    Point point = film.landmarks().get(landmark);
    if (point == null) {
      throw new IllegalStateException("landmarks are asked for before they are used");
    }
    return point;
  }
}
