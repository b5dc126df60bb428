package org.intercusp.summary.drawing;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamException;
import org.intercusp.analysis.film.Line;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;

/**
 * Tracing of a lateral film: its landmarks and lines as drawn on the film, and the angles measured
 * on it beside their usual values. The patient looks to the right.
 */
public final class FilmTracing {

  private static final double WIDTH = 150;
  private static final double HEIGHT = 122;
  private static final Spot CORNER = new Spot(8, 14);
  private static final double ROOM = 82;

  /** The angles and the ratio listed, with what a person reads for them, in their order. */
  private static final List<String> LISTED =
      List.of(
          "sna",
          "snb",
          "anb",
          "anb-corrected",
          "sn-mx",
          "mmpa",
          "u1-mx",
          "l1-md",
          "interincisal",
          "wits",
          "lafh-percent");

  private static final Map<String, String> NAMES =
      Map.ofEntries(
          Map.entry("sna", "SNA"),
          Map.entry("snb", "SNB"),
          Map.entry("anb", "ANB"),
          Map.entry("anb-corrected", "ANB corrected"),
          Map.entry("sn-mx", "SN-Mx"),
          Map.entry("mmpa", "MMPA"),
          Map.entry("u1-mx", "U1-Mx"),
          Map.entry("l1-md", "L1-Md"),
          Map.entry("interincisal", "interincisal"),
          Map.entry("wits", "Wits"),
          Map.entry("lafh-percent", "LAFH"));

  private FilmTracing() {}

  /**
   * The drawing as an SVG element; empty for a film without two landmarks.
   *
   * @param figures of the examination; those of this film are listed
   */
  public static Optional<String> svg(Film film, List<Figure> figures) {
    if (film.landmarks().size() < 2) {
      return Optional.empty();
    }
    List<Figure> own =
        LISTED.stream()
            .flatMap(
                name ->
                    figures.stream()
                        .filter(each -> each.name().equals(name))
                        .filter(each -> each.subject().equals(film.id())))
            .filter(each -> each.value() != null)
            .toList();
    return Optional.of(
        Svg.drawing(
            "film-" + film.id(),
            WIDTH,
            HEIGHT,
            "Tracing of film " + film.id(),
            description(film, own),
            svg -> draw(svg, film, own)));
  }

  private static String description(Film film, List<Figure> figures) {
    String angles = figures.stream().map(FilmTracing::shown).collect(Collectors.joining("; "));
    return "Film of "
        + film.takenOn()
        + ", jaw "
        + film.jaw().code()
        + ". "
        + (angles.isEmpty() ? "No angle could be measured." : angles + ".");
  }

  private static String shown(Figure figure) {
    return NAMES.getOrDefault(figure.name(), figure.name()) + " " + number(figure);
  }

  private static String number(Figure figure) {
    Value value = figure.value();
    return value == null ? "" : value.shown(figure.unit());
  }

  private static void draw(Svg svg, Film film, List<Figure> figures) throws XMLStreamException {
    svg.text(new Spot(4, 5), "start", "Film of " + film.takenOn() + ", jaw " + film.jaw().code());
    FilmFrame frame = FilmFrame.fitting(film.landmarks().values(), CORNER, ROOM, HEIGHT - 26);
    lines(svg, film, frame, false);
    for (Landmark landmark : FilmLines.NAMED) {
      Point point = film.landmarks().get(landmark);
      if (point != null) {
        name(svg, landmark, frame.of(point));
      }
    }
    double y = 14;
    for (Figure each : figures) {
      svg.text(new Spot(104, y), "start", NAMES.getOrDefault(each.name(), each.name()));
      svg.text(new Spot(142, y), "end", number(each));
      if (each.usual() != null) {
        svg.text(new Spot(142, y + 3), "end", "usual " + each.usual(), 2.3);
      }
      y += 8.5;
    }
    scale(svg, film, frame);
  }

  private static void name(Svg svg, Landmark landmark, Spot at) throws XMLStreamException {
    boolean back =
        switch (landmark) {
          case S, GO, CO, PNS -> true;
          default -> false;
        };
    svg.text(
        at.plus(back ? -1.6 : 1.6, landmark == Landmark.ME ? 3.4 : 1),
        back ? "end" : "start",
        landmark.code(),
        Svg.SMALL);
  }

  private static void scale(Svg svg, Film film, FilmFrame frame) throws XMLStreamException {
    svg.scale(new Spot(8, HEIGHT - 4), frame.scale());
    if (film.magnification() == null) {
      svg.text(
          new Spot(34, HEIGHT - 3), "start", "of the film; its magnification is not given", 2.3);
    } else {
      svg.text(
          new Spot(34, HEIGHT - 3),
          "start",
          "of the film, enlarged by "
              + film.magnification().value().stripTrailingZeros().toPlainString()
              + " %",
          2.3);
    }
  }

  /** All lines of a film whose two landmarks were found, and its landmarks as dots. */
  static void lines(Svg svg, Film film, FilmFrame frame, boolean later) throws XMLStreamException {
    String ink = later ? Ink.VERMILION : Ink.BLUE;
    for (Line line : FilmLines.DRAWN) {
      Point from = film.landmarks().get(line.from());
      Point to = film.landmarks().get(line.to());
      if (from == null || to == null) {
        continue;
      }
      if (later) {
        svg.dashed(frame.of(from), frame.of(to), ink, 0.5);
      } else {
        svg.line(frame.of(from), frame.of(to), ink, 0.5);
      }
    }
    for (Point point : film.landmarks().values()) {
      svg.dot(frame.of(point), 0.6, later ? Ink.VERMILION : Ink.LINE);
    }
  }
}
