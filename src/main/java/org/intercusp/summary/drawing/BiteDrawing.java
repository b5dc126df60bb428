package org.intercusp.summary.drawing;

import java.math.BigDecimal;
import javax.xml.stream.XMLStreamException;
import org.intercusp.treatment.Bite;

/**
 * Side view of a construction bite, to scale: the incisors and jaws in habitual occlusion and in
 * the bite, and the path of the jaw with its limit and the registered position.
 */
public final class BiteDrawing {

  private static final double WIDTH = 150;
  private static final double HEIGHT = 98;

  /** Paper height of the flat occlusal plane in both views. */
  private static final double PLANE = 34;

  private static final String BEFORE = Ink.BLUE;

  private static final String IN_BITE = Ink.VERMILION;

  private BiteDrawing() {}

  /** The drawing as an SVG element. */
  public static String svg(BiteView view) {
    String id = "bite-" + view.bite().id().replaceAll("[^A-Za-z0-9-]", "-");
    return Svg.drawing(
        id,
        WIDTH,
        HEIGHT,
        "Side view of the construction bite " + view.bite().id(),
        description(view),
        svg -> {
          habitual(svg, view);
          inBite(svg, view);
          PathBar.draw(svg, view.bite(), view.most(), 80);
          svg.scale(new Spot(4, 64), 1);
        });
  }

  private static String description(BiteView view) {
    Bite bite = view.bite();
    return "Overjet "
        + mm(bite.overjetHabitual().value())
        + " and overbite "
        + mm(bite.overbiteHabitual().value())
        + " in habitual occlusion; in the bite overjet "
        + mm(bite.overjetInBite().value())
        + ", "
        + mm(bite.incisalClearance().value())
        + " clear between the incisors. "
        + PathBar.inWords(bite);
  }

  private static void habitual(Svg svg, BiteView view) throws XMLStreamException {
    Spot upperEdge = new Spot(52, PLANE + view.overbite());
    Spot lowerEdge = new Spot(52 - view.overjet(), PLANE);
    svg.text(new Spot(4, 6), "start", "In habitual occlusion");
    jaws(svg, view, upperEdge, new JawFrame(lowerEdge, 0));
    horizontal(
        svg,
        lowerEdge,
        upperEdge,
        BEFORE,
        60,
        "overjet " + mm(view.bite().overjetHabitual().value()));
    svg.line(new Spot(53.5, PLANE), new Spot(53.5, PLANE + view.overbite()), BEFORE, 0.7);
    svg.text(
        new Spot(54.5, PLANE + view.overbite() / 2 + 1),
        "start",
        "overbite " + mm(view.bite().overbiteHabitual().value()));
  }

  private static void inBite(Svg svg, BiteView view) throws XMLStreamException {
    Spot upperEdge = new Spot(124, PLANE + view.overbite());
    Spot lowerEdge = new Spot(124 - view.overjetInBite(), PLANE + view.opening());
    svg.text(new Spot(80, 6), "start", "In the construction bite");
    jaws(svg, view, upperEdge, new JawFrame(lowerEdge, view.turn()));
    horizontal(
        svg,
        lowerEdge,
        upperEdge,
        IN_BITE,
        66,
        "overjet " + mm(view.bite().overjetInBite().value()));
    String gap =
        view.premolarGap() == null
            ? "gap behind not known"
            : "premolar gap "
                + mm(BigDecimal.valueOf(Math.round(view.premolarGap() * 10) / 10.0))
                + (view.predicted() ? " (computed)" : "");
    svg.text(new Spot(80, 11), "start", gap);
    svg.line(
        new Spot(125.5, PLANE + view.overbite()),
        new Spot(125.5, PLANE + view.opening()),
        IN_BITE,
        0.7);
    svg.text(
        new Spot(126.5, PLANE + view.overbite() + view.clearance() / 2 + 1),
        "start",
        "clear " + mm(view.bite().incisalClearance().value()));
  }

  private static void jaws(Svg svg, BiteView view, Spot upperEdge, JawFrame lower)
      throws XMLStreamException {
    Anatomy.lower(svg, lower, view.bite().lowerIncisorHeight().asDouble());
    Anatomy.upper(
        svg,
        new JawFrame(upperEdge, 0),
        view.bite().upperIncisorHeight().asDouble(),
        view.overbite());
  }

  /** A dimension between two edges, drawn below them. */
  private static void horizontal(
      Svg svg, Spot lower, Spot upper, String colour, double y, String words)
      throws XMLStreamException {
    svg.dashed(lower, new Spot(lower.x(), y), colour, 0.3);
    svg.dashed(upper, new Spot(upper.x(), y), colour, 0.3);
    svg.line(new Spot(lower.x(), y), new Spot(upper.x(), y), colour, 0.7);
    svg.text(new Spot(Math.max(lower.x(), upper.x()) + 1.5, y + 1), "start", words);
  }

  static String mm(BigDecimal value) {
    return value.stripTrailingZeros().toPlainString() + " mm";
  }
}
