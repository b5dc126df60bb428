package org.intercusp.summary.drawing;

/**
 * The colours of all drawings, from the colour-blind-safe set of Nature Methods 2011;8:441. None
 * carries a meaning alone: shape, dashes or words say the same in black and white.
 */
final class Ink {

  static final String BLUE = "#0072b2";
  static final String VERMILION = "#d55e00";
  static final String GREEN = "#009e73";
  static final String SKY = "#56b4e9";
  static final String ORANGE = "#e69f00";

  /** The line and words of the page. */
  static final String LINE = "currentColor";

  static final String NONE = "none";

  /** A tooth, on light and dark paper; what is written on it is {@link #ON_TOOTH}. */
  static final String TOOTH = "#f5f1e6";

  static final String ON_TOOTH = "#1a1a1a";

  /** The edge of a tooth, seen on light and dark paper. */
  static final String EDGE = "#6b6b6b";

  private Ink() {}
}
