package org.intercusp.analysis.film;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.hipparchus.analysis.differentiation.Gradient;
import org.hipparchus.util.FieldSinCos;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Decimal;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;

/**
 * The landmarks of one film as geometry: degrees counter-clockwise from forward, millimetres as
 * drawn, each with its exact partial derivatives by every coordinate of the films it belongs to.
 */
final class Tracing {

  /** Closer than this two landmarks are one point: a thousandth of what a tracing resolves. */
  private static final double ONE_POINT = 1e-4;

  private final Film film;
  private final List<Landmark> found;
  private final int offset;
  private final int parameters;

  /** A film by itself. */
  Tracing(Film film) {
    this(film, 0, coordinates(film));
  }

  private Tracing(Film film, int offset, int parameters) {
    this.film = film;
    this.found = List.copyOf(film.landmarks().keySet());
    this.offset = offset;
    this.parameters = parameters;
  }

  Film film() {
    return film;
  }

  /** The first of two films that are computed with together. */
  static Tracing firstOfTwo(Film first, Film second) {
    return new Tracing(first, 0, coordinates(first) + coordinates(second));
  }

  /** The second of two films that are computed with together. */
  static Tracing secondOfTwo(Film first, Film second) {
    return new Tracing(second, coordinates(first), coordinates(first) + coordinates(second));
  }

  private static int coordinates(Film film) {
    return 2 * film.landmarks().size();
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
        .filter(line -> length(line).getValue() < ONE_POINT)
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
  Gradient direction(Line line) {
    return y(line.from(), line.to()).atan2(x(line.from(), line.to())).toDegrees();
  }

  Gradient length(Line line) {
    return x(line.from(), line.to()).hypot(y(line.from(), line.to()));
  }

  /** How far one landmark lies from another along a direction in degrees, forward positive. */
  Gradient along(Gradient degrees, Landmark from, Landmark to) {
    FieldSinCos<Gradient> radians = degrees.toRadians().sinCos();
    return x(from, to).multiply(radians.cos()).add(y(from, to).multiply(radians.sin()));
  }

  /** How far a landmark lies above a line, perpendicular to it. */
  Gradient above(Line line, Landmark landmark) {
    return along(direction(line).add(90), line.from(), landmark);
  }

  /** The same angle above -180 and up to 180 degrees. */
  static Gradient signed(Gradient degrees) {
    Gradient turned = unsigned(degrees);
    return turned.getValue() > 180 ? turned.subtract(360) : turned;
  }

  /** The same angle from 0 to below 360 degrees. */
  static Gradient unsigned(Gradient degrees) {
    double turned = degrees.getValue() % 360;
    return degrees.withValue(turned < 0 ? turned + 360 : turned);
  }

  private Gradient x(Landmark from, Landmark to) {
    return coordinate(to, 0, point(to).x()).subtract(coordinate(from, 0, point(from).x()));
  }

  private Gradient y(Landmark from, Landmark to) {
    return coordinate(to, 1, point(to).y()).subtract(coordinate(from, 1, point(from).y()));
  }

  private Gradient coordinate(Landmark landmark, int axis, Decimal at) {
    int index = offset + 2 * found.indexOf(landmark) + axis;
    return Gradient.variable(parameters, index, at.value().doubleValue());
  }

  private Point point(Landmark landmark) {
    Point point = film.landmarks().get(landmark);
    if (point == null) {
      throw new IllegalStateException("landmarks are asked for before they are used");
    }
    return point;
  }
}
