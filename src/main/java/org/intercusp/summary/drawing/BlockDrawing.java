package org.intercusp.summary.drawing;

import static org.intercusp.summary.drawing.BiteDrawing.mm;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import javax.xml.stream.XMLStreamException;

/**
 * Side view of the two bite blocks, to scale: their heights, the incline between them and what is
 * trimmed at the next visit, hatched. The patient looks to the right. Crown shapes and the places
 * of the teeth are a plain picture (common practice, no source).
 */
public final class BlockDrawing {

  private static final double WIDTH = 118;
  private static final double HEIGHT = 70;

  /** The upper incisal edge, which the upper occlusal plane passes through, on the paper. */
  private static final Spot EDGE = new Spot(88, 30);

  /** Paper mm for a mm of the mouth. */
  private static final double SCALE = 1.7;

  private final BlockView view;
  private final Wedge wedge;

  private BlockDrawing(BlockView view) {
    this.view = view;
    this.wedge = Wedge.of(view);
  }

  /** The drawing as an SVG element. */
  public static String svg(BlockView view) {
    BlockDrawing drawing = new BlockDrawing(view);
    return Svg.drawing(
        "blocks-" + view.id(),
        WIDTH,
        HEIGHT,
        "Side view of the bite blocks of " + view.id(),
        drawing.description(),
        drawing::draw);
  }

  private String description() {
    NextTrim next = view.next();
    return "Upper and lower block together are "
        + height(view.premolar())
        + " high at the first premolars and "
        + height(view.molar())
        + " at the first molars ("
        + view.origin()
        + "). "
        + inclineInWords()
        + (next == null ? "" : " " + trimInWords(next) + ".");
  }

  private String inclineInWords() {
    return view.incline() == null
        ? "The angle of the incline is not given; 70 degrees is drawn."
        : "The incline stands at " + degrees() + " to the occlusal plane.";
  }

  private String degrees() {
    return view.incline() == null
        ? "angle not given"
        : view.incline().value().stripTrailingZeros().toPlainString() + "°";
  }

  private static String trimInWords(NextTrim next) {
    return next.amount().value().signum() == 0
        ? "Next visit: no trimming, " + next.why()
        : "Next visit: trim " + mm(next.amount().value()) + ", " + next.why();
  }

  static String height(double height) {
    return mm(BigDecimal.valueOf(height).setScale(2, RoundingMode.HALF_UP));
  }

  private void draw(Svg svg) throws XMLStreamException {
    svg.text(new Spot(4, 5), "start", "Bite blocks from the side, heights " + view.origin());
    teeth(svg);
    block(svg, wedge.upper(), "upper block", wedge.upperMiddle());
    block(svg, wedge.lower(), "lower block", wedge.lowerMiddle());
    trimming(svg);
    svg.line(paper(wedge.inclineTop()), paper(wedge.inclineFoot()), Ink.VERMILION, 0.9);
    Spot foot = paper(wedge.inclineFoot());
    svg.text(new Spot(foot.x(), 62), "end", "incline " + degrees());
    svg.dashed(new Spot(foot.x(), foot.y() + 0.8), new Spot(foot.x() - 1, 59), Ink.LINE, 0.25);
    measure(svg, wedge.premolarAt(), view.premolar(), "at the premolars");
    measure(svg, wedge.molarAt(), view.molar(), "at the molars");
    svg.scale(new Spot(88, 67), SCALE);
    svg.text(new Spot(114, 5), "end", "front \u2192", Svg.SMALL);
  }

  private void teeth(Svg svg) throws XMLStreamException {
    JawFrame upper = new JawFrame(EDGE, 0, SCALE);
    JawFrame lower = new JawFrame(paper(wedge.lowerEdge()), wedge.turn(), SCALE);
    for (int position = 3; position <= Math.max(6, view.upperDistal()); position++) {
      Anatomy.posterior(svg, upper, Blocks.upper(position), Blocks.width(position), 0, 1);
    }
    for (int position = 3; position <= 6; position++) {
      Anatomy.posterior(svg, lower, Blocks.lower(position), Blocks.width(position), 0, -1);
    }
    incisors(svg, upper, lower);
  }

  private static void incisors(Svg svg, JawFrame upper, JawFrame lower) throws XMLStreamException {
    svg.path(
        Outline.from(upper.at(0, 0))
            .bend(upper.at(-0.6, 5), upper.at(1.2, 9))
            .to(upper.at(5, 9))
            .bend(upper.at(2.6, 4), upper.at(0.9, 0))
            .close(),
        Ink.TOOTH,
        Ink.EDGE);
    svg.path(
        Outline.from(lower.at(0, 0))
            .bend(lower.at(-0.6, -5), lower.at(0.6, -8))
            .to(lower.at(4, -8))
            .bend(lower.at(2.4, -4), lower.at(0.9, 0))
            .close(),
        Ink.TOOTH,
        Ink.EDGE);
  }

  private void block(Svg svg, List<Wedge.Place> corners, String words, Wedge.Place middle)
      throws XMLStreamException {
    List<Spot> spots = corners.stream().map(BlockDrawing::paper).toList();
    svg.path(Outline.through(spots).close(), Ink.SKY, Ink.LINE, 0.5);
    boolean upper = words.startsWith("upper");
    Spot at = paper(middle);
    Spot label = new Spot(upper ? at.x() : at.x() + 12, upper ? 12 : 62);
    svg.dashed(at, label.plus(0, upper ? 1 : -3.2), Ink.LINE, 0.25);
    svg.text(label, "middle", words);
  }

  private void trimming(Svg svg) throws XMLStreamException {
    NextTrim next = view.next();
    if (next == null) {
      return;
    }
    svg.text(new Spot(4, 68), "start", trimInWords(next));
    if (next.amount().value().signum() > 0) {
      List<Spot> strip =
          wedge.strip(next.amount().asDouble()).stream().map(BlockDrawing::paper).toList();
      svg.path(Outline.through(strip).close(), Ink.ORANGE, Ink.ON_TOOTH, 0.3);
      svg.hatched(strip, Ink.ON_TOOTH);
    }
  }

  private void measure(Svg svg, double behind, double height, String words)
      throws XMLStreamException {
    Spot top = paper(new Wedge.Place(behind, 0));
    Spot bottom = top.plus(0, height * SCALE);
    svg.line(top, bottom, Ink.ON_TOOTH, 0.5);
    svg.line(top.plus(-1, 0), top.plus(1, 0), Ink.ON_TOOTH, 0.5);
    svg.line(bottom.plus(-1, 0), bottom.plus(1, 0), Ink.ON_TOOTH, 0.5);
    boolean front = words.endsWith("premolars");
    double x = front ? EDGE.x() + 5 : paper(new Wedge.Place(38, 0)).x();
    String anchor = front ? "start" : "end";
    svg.text(new Spot(x, top.y() + height * SCALE / 2), anchor, height(height));
    svg.text(new Spot(x, top.y() + height * SCALE / 2 + 3), anchor, words, Svg.SMALL);
  }

  private static Spot paper(Wedge.Place place) {
    return EDGE.plus(-place.behind() * SCALE, place.below() * SCALE);
  }
}
