package org.intercusp.summary.drawing;

import java.util.List;
import javax.xml.stream.XMLStreamException;

/**
 * Simple outlines of jaw and teeth from the side. Only the edges, heights and distances that are
 * measured are to scale; crown shapes and the jaw are a plain picture (common practice, no source).
 */
final class Anatomy {

  /**
   * Middle of the tooth behind the incisal edge and its width, in mm: common practice, no source.
   */
  private record Crown(double middle, double width) {}

  private static final List<Crown> BEHIND_THE_INCISOR =
      List.of(new Crown(7, 6), new Crown(14, 7), new Crown(22, 7), new Crown(31, 10));

  /** Height of a posterior crown on the drawing, in mm. */
  static final double CROWN = 6;

  private Anatomy() {}

  /**
   * The upper jaw.
   *
   * @param frame origin at the upper incisal edge, flat
   * @param crown height of the upper incisor, in mm
   * @param plane height of the occlusal plane above the incisal edge, in mm
   */
  static void upper(Svg svg, JawFrame frame, double crown, double plane) throws XMLStreamException {
    double gum = plane + CROWN;
    svg.path(
        Outline.from(frame.at(1, crown))
            .bend(frame.at(-1, crown + 5), frame.at(4, crown + 9))
            .bend(frame.at(30, crown + 9), frame.at(40, crown + 6))
            .to(frame.at(40, gum - 0.5)),
        Ink.NONE,
        Ink.EDGE);
    svg.path(incisor(frame, crown, 1), Ink.TOOTH, Ink.EDGE);
    for (Crown each : BEHIND_THE_INCISOR) {
      posterior(svg, frame, each.middle(), each.width(), plane, 1);
    }
  }

  /**
   * The lower jaw.
   *
   * @param frame origin at the lower incisal edge, turned with the jaw
   * @param crown height of the lower incisor, in mm
   */
  static void lower(Svg svg, JawFrame frame, double crown) throws XMLStreamException {
    svg.path(
        Outline.from(frame.at(1, -crown))
            .bend(frame.at(-2, -crown - 5), frame.at(4, -crown - 10))
            .bend(frame.at(28, -crown - 9), frame.at(36, -crown - 6))
            .to(frame.at(36, -CROWN + 0.5)),
        Ink.NONE,
        Ink.EDGE);
    svg.path(incisor(frame, crown, -1), Ink.TOOTH, Ink.EDGE);
    for (Crown each : BEHIND_THE_INCISOR) {
      posterior(svg, frame, each.middle(), each.width(), 0, -1);
    }
  }

  /** An incisor from the side: {@code up} is 1 for an upper and -1 for a lower one. */
  private static Outline incisor(JawFrame frame, double crown, int up) {
    return Outline.from(frame.at(0, 0))
        .bend(frame.at(-0.6, up * crown * 0.55), frame.at(1.2, up * crown))
        .to(frame.at(6.2, up * crown))
        .bend(frame.at(2.6, up * crown * 0.45), frame.at(0.9, 0))
        .close();
  }

  /** A tooth with its cusp on a plane, its crown above it ({@code up} 1) or below it (-1). */
  static void posterior(Svg svg, JawFrame frame, double middle, double width, double plane, int up)
      throws XMLStreamException {
    double front = middle - width / 2 + 0.2;
    double back = middle + width / 2 - 0.2;
    svg.path(
        Outline.from(frame.at(front, plane + up * CROWN))
            .to(frame.at(front, plane + up * 0.8))
            .bend(frame.at(middle, plane - up * 0.5), frame.at(back, plane + up * 0.8))
            .to(frame.at(back, plane + up * CROWN))
            .close(),
        Ink.TOOTH,
        Ink.EDGE);
  }
}
