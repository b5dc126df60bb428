package org.intercusp.summary.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamException;
import org.intercusp.measure.Decimal;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;

/**
 * Two tracings on one another, at life size where they have room: the later film lies on the line
 * from sella to nasion of the first, at sella. Withheld where a film lacks one of the two, or its
 * magnification.
 */
public final class FilmsSuperimposed {

  private static final double WIDTH = 120;
  private static final double HEIGHT = 122;

  private FilmsSuperimposed() {}

  /** The drawing as an SVG element. */
  public static Optional<String> svg(Film before, Film after) {
    Optional<Placed> first = placed(before);
    Optional<Placed> second = placed(after);
    if (first.isEmpty() || second.isEmpty()) {
      return Optional.empty();
    }
    Placed one = first.orElseThrow();
    Placed two = second.orElseThrow();
    double turn = one.direction() - two.direction();
    FilmFrame fit = fit(one, two, turn);
    return Optional.of(
        Svg.drawing(
            "films-" + before.id() + "-" + after.id(),
            WIDTH,
            HEIGHT,
            "Films of " + before.takenOn() + " and " + after.takenOn() + " superimposed",
            "Superimposed on the line from sella to nasion at sella. The first film is drawn in"
                + " full lines, the later one dashed.",
            svg -> draw(svg, one, two, turn, fit)));
  }

  /** A film with its sella, the direction of nasion from it and its enlargement. */
  private record Placed(Film film, double x, double y, double direction, double enlarged) {

    FilmFrame on(Spot sella, double turn, double scale) {
      return new FilmFrame(x, y, sella, turn, scale / enlarged);
    }
  }

  private static Optional<Placed> placed(Film film) {
    Point s = film.landmarks().get(Landmark.S);
    Point n = film.landmarks().get(Landmark.N);
    Decimal magnification = film.magnification();
    if (s == null || n == null || s.equals(n) || magnification == null) {
      return Optional.empty();
    }
    double x = s.x().value().doubleValue();
    double y = s.y().value().doubleValue();
    double direction = Math.atan2(n.y().value().doubleValue() - y, n.x().value().doubleValue() - x);
    return Optional.of(
        new Placed(film, x, y, direction, 1 + magnification.value().doubleValue() / 100));
  }

  /** Where sella lies on the paper and how large life is, so that both films have room. */
  private static FilmFrame fit(Placed one, Placed two, double turn) {
    Spot origin = new Spot(0, 0);
    List<Spot> all = new ArrayList<>();
    one.film().landmarks().values().forEach(p -> all.add(one.on(origin, 0, 1).of(p)));
    two.film().landmarks().values().forEach(p -> all.add(two.on(origin, turn, 1).of(p)));
    double left = all.stream().mapToDouble(Spot::x).min().orElse(0);
    double right = all.stream().mapToDouble(Spot::x).max().orElse(0);
    double top = all.stream().mapToDouble(Spot::y).min().orElse(0);
    double bottom = all.stream().mapToDouble(Spot::y).max().orElse(0);
    double scale =
        Math.min(1, Math.min(104 / Math.max(1, right - left), 88 / Math.max(1, bottom - top)));
    return new FilmFrame(0, 0, new Spot(8 - left * scale, 20 - top * scale), 0, scale);
  }

  private static void draw(Svg svg, Placed one, Placed two, double turn, FilmFrame fit)
      throws XMLStreamException {
    svg.line(new Spot(4, 4), new Spot(14, 4), Ink.BLUE, 0.5);
    svg.text(new Spot(16, 5), "start", one.film().takenOn().toString());
    svg.dashed(new Spot(60, 4), new Spot(70, 4), Ink.VERMILION, 0.5);
    svg.text(new Spot(72, 5), "start", two.film().takenOn().toString());
    svg.text(new Spot(4, 10), "start", "on the line from sella to nasion, at sella", Svg.SMALL);
    FilmTracing.lines(svg, one.film(), one.on(fit.at(), 0, fit.scale()), false);
    FilmTracing.lines(svg, two.film(), two.on(fit.at(), turn, fit.scale()), true);
    svg.scale(new Spot(8, HEIGHT - 4), fit.scale());
    svg.text(new Spot(34, HEIGHT - 3), "start", "of life", 2.3);
  }
}
