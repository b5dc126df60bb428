package org.intercusp.worklist;

import java.text.Normalizer;
import java.util.Locale;
import java.util.regex.Pattern;

/** Text as it is searched and sorted: lower case, without accents. */
final class Folded {

  private static final Pattern MARKS = Pattern.compile("\\p{M}+");
  private static final Pattern SPACES = Pattern.compile("[\\p{Z}\\p{C}]+");

  private Folded() {}

  static String of(String text) {
    String apart = Normalizer.normalize(text, Normalizer.Form.NFKD);
    String bare = MARKS.matcher(apart).replaceAll("").toLowerCase(Locale.ROOT);
    return SPACES.matcher(bare).replaceAll(" ").strip();
  }
}
