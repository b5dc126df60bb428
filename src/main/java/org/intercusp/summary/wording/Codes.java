package org.intercusp.summary.wording;

import java.util.Map;
import org.intercusp.treatment.Coded;

/** Codes of a record as people in the trade write them. */
public final class Codes {

  /** Those that are more than their words: names, hyphens that stay, abbreviations. */
  private static final Map<String, String> SPECIAL =
      Map.of(
          "adams", "Adams",
          "ball-ended", "ball-ended",
          "non-wear", "non-wear",
          "lost-to-follow-up", "lost to follow-up",
          "retention-12mo", "12 months of retention");

  private Codes() {}

  /** {@code twin-block} as "twin block", {@code adams} as "Adams". */
  public static String words(Coded coded) {
    String code = coded.code();
    return SPECIAL.getOrDefault(code, code.replace('-', ' '));
  }
}
