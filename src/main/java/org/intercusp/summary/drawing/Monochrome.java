package org.intercusp.summary.drawing;

import java.util.Map;

/** A drawing for a printer without colour: lines black, areas light grey or white with hatching. */
public final class Monochrome {

  private static final Map<String, String> GREYS =
      Map.of(
          Ink.BLUE, "#000000",
          Ink.VERMILION, "#000000",
          Ink.GREEN, "#000000",
          Ink.SKY, "#d9d9d9",
          Ink.ORANGE, "#ffffff",
          Ink.TOOTH, "#ffffff");

  private Monochrome() {}

  public static String of(String svg) {
    String grey = svg;
    for (Map.Entry<String, String> each : GREYS.entrySet()) {
      grey = grey.replace("\"" + each.getKey() + "\"", "\"" + each.getValue() + "\"");
    }
    return grey;
  }
}
