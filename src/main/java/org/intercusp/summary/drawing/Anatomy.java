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
  private static final double CROWN = 6;

  private static final String TOOTH = "#f5f1e6";
  private static final String LINE = "#5b5b5b";

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
        "M%s Q%s %s Q%s %s L%s Z"
            .formatted(
                frame.at(1, crown).shown(),
                frame.at(-1, crown + 5).shown(),
                frame.at(4, crown + 9).shown(),
                frame.at(30, crown + 9).shown(),
                frame.at(40, crown + 6).shown(),
                frame.at(40, gum - 0.5).shown()),
        "none",
        LINE);
    svg.path(incisor(frame, crown, 1), TOOTH, LINE);
    posterior(svg, frame, plane, 1);
  }

  /**
   * The lower jaw.
   *
   * @param frame origin at the lower incisal edge, turned with the jaw
   * @param crown height of the lower incisor, in mm
   */
  static void lower(Svg svg, JawFrame frame, double crown) throws XMLStreamException {
    svg.path(
        "M%s Q%s %s Q%s %s L%s Z"
            .formatted(
                frame.at(1, -crown).shown(),
                frame.at(-2, -crown - 5).shown(),
                frame.at(4, -crown - 10).shown(),
                frame.at(28, -crown - 9).shown(),
                frame.at(36, -crown - 6).shown(),
                frame.at(36, -CROWN + 0.5).shown()),
        "none",
        LINE);
    svg.path(incisor(frame, crown, -1), TOOTH, LINE);
    posterior(svg, frame, 0, -1);
  }

  /** An incisor from the side: {@code up} is 1 for an upper and -1 for a lower one. */
  private static String incisor(JawFrame frame, double crown, int up) {
    return "M%s Q%s %s L%s Q%s %s Z"
        .formatted(
            frame.at(0, 0).shown(),
            frame.at(-0.6, up * crown * 0.55).shown(),
            frame.at(1.2, up * crown).shown(),
            frame.at(6.2, up * crown).shown(),
            frame.at(2.6, up * crown * 0.45).shown(),
            frame.at(0.9, 0).shown());
  }

  private static void posterior(Svg svg, JawFrame frame, double plane, int up)
      throws XMLStreamException {
    for (Crown crown : BEHIND_THE_INCISOR) {
      double front = crown.middle() - crown.width() / 2 + 0.2;
      double back = crown.middle() + crown.width() / 2 - 0.2;
      svg.path(
          "M%s L%s Q%s %s L%s L%s Z"
              .formatted(
                  frame.at(front, plane + up * CROWN).shown(),
                  frame.at(front, plane + up * 0.8).shown(),
                  frame.at(crown.middle(), plane - up * 0.5).shown(),
                  frame.at(back, plane + up * 0.8).shown(),
                  frame.at(back, plane + up * CROWN).shown(),
                  frame.at(front, plane + up * CROWN).shown()),
          TOOTH,
          LINE);
    }
  }
}
