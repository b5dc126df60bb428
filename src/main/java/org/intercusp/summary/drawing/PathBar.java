package org.intercusp.summary.drawing;

import java.math.BigDecimal;
import javax.xml.stream.XMLStreamException;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.treatment.Bite;

/**
 * The path of the jaw as a bar from its hindmost to its foremost position, with the registered
 * position and the mark of the clinic's limit of the activation.
 */
final class PathBar {

  private static final double LEFT = 15;
  private static final double LENGTH = 120;
  private static final String MARK = Ink.VERMILION;

  private PathBar() {}

  /** The path in words, for who cannot see the bar. */
  static String inWords(Bite bite) {
    return "Registered "
        + BiteDrawing.mm(bite.registeredReading().minus(start(bite)).value())
        + " along a path of "
        + BiteDrawing.mm(bite.maximumReading().minus(start(bite)).value())
        + (bite.retrudedReading() == null ? ", slide assumed 0." : ".");
  }

  static void draw(Svg svg, Bite bite, Share most, double y) throws XMLStreamException {
    double path = bite.maximumReading().minus(start(bite)).asDouble();
    if (path <= 0) {
      svg.text(new Spot(LEFT, y), "start", "The readings give no path forward.");
      return;
    }
    svg.line(new Spot(LEFT, y), new Spot(LEFT + LENGTH, y), "currentColor", 1);
    end(svg, LEFT, y, bite.retrudedReading() == null ? "habitual" : "retruded", "start");
    end(svg, LEFT + LENGTH, y, "maximum", "end");
    if (bite.retrudedReading() != null) {
      double at = along(bite.habitualReading(), bite, path);
      svg.line(new Spot(at, y - 1.5), new Spot(at, y + 1.5), "currentColor", 0.4);
    }
    double limit = LEFT + LENGTH * most.asDouble();
    svg.dashed(new Spot(limit, y - 5), new Spot(limit, y + 4), "currentColor", 0.5);
    svg.text(new Spot(limit, y + 7.5), "middle", percent(most.asDouble()) + " of the path");
    double registered = along(bite.registeredReading(), bite, path);
    svg.dot(new Spot(registered, y), 1.6, MARK);
    String share = percent(share(bite.registeredReading(), bite, path));
    svg.text(new Spot(registered, y - 6), "middle", "registered, " + share);
  }

  private static void end(Svg svg, double x, double y, String words, String anchor)
      throws XMLStreamException {
    svg.line(new Spot(x, y - 2.5), new Spot(x, y + 2.5), "currentColor", 0.6);
    svg.text(new Spot(x, y + 12), anchor, words);
  }

  private static double along(Length reading, Bite bite, double path) {
    return LEFT + LENGTH * Math.max(-0.05, Math.min(1.05, share(reading, bite, path)));
  }

  private static double share(Length reading, Bite bite, double path) {
    return reading.minus(start(bite)).asDouble() / path;
  }

  private static String percent(double share) {
    return BigDecimal.valueOf(Math.round(1000 * share) / 10.0).stripTrailingZeros().toPlainString()
        + " %";
  }

  private static Length start(Bite bite) {
    return bite.retrudedReading() == null ? bite.habitualReading() : bite.retrudedReading();
  }
}
