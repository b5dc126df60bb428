package org.intercusp.rules.appliance;

import java.util.Locale;
import java.util.regex.Pattern;

/**
 * What a free text says of acrylic. A clinic writes materials in its own or its laboratory's words,
 * so whatever may be an acrylic counts as one unless the text says otherwise. That trade words of
 * acrylics carry "cryl", that resins cured or polymerised at the chair, in a flask or by light are
 * acrylics, and which plastics are not, is common knowledge of the trade, no source.
 */
final class Acrylic {

  private static final String ACRYL = "[\\p{L}-]*[ck]r[yií]l\\p{L}*|pmma";

  /** Denies the whole family, which no name of one of its members does. */
  private static final Denial DENIED = Denial.of("a[ck]r[yií]l\\p{L}*");

  /**
   * That there is none of one acrylic, or little monomer left, says nothing of the rest: it denies
   * no material that names acrylic and clears none that may be one.
   */
  private static final Denial ONE_DENIED =
      Denial.of(
          "(?:residual )?(?:(?:methyl[- ]?)?(?:meth)?acrylates?[- ])?monomers?|p?mma"
              + "|(?:poly[- ]?)?(?:methyl[- ]?)?methacrylates?|methyl[- ]acrylates?");

  private static final Pattern NAMED = Pattern.compile(ACRYL);
  private static final Pattern LIKELY =
      Pattern.compile(
          "\\bmma\\b|\\p{L}+dma\\b|\\bbis-?gma\\b|\\bhema\\b|\\bresin|\\bcur(?:ed?|ing)\\b"
              + "|polymeri[sz]");
  private static final Pattern OTHER_PLASTICS =
      Pattern.compile(
          "polyamide|nylon|polyester|polycarbonate|polypropylene|polyethylene|polyacetal"
              + "|polyoxymethylene|\\bpet-?g?\\b|silicone");

  private Acrylic() {}

  /** What a text says; an allergy that names no acrylic is unknown like a material that doesn't. */
  static Holds in(String text) {
    String lower = text.toLowerCase(Locale.ROOT);
    String all = ONE_DENIED.takenOutOf(lower);
    if (NAMED.matcher(DENIED.takenOutOf(all)).find()) {
      return Holds.YES;
    }
    String rest = DENIED.leaves(all, LIKELY);
    if (rest.isBlank() && DENIED.isIn(all)) {
      return Holds.NO;
    }
    if (LIKELY.matcher(rest).find()) {
      return ONE_DENIED.isIn(lower) ? Holds.UNKNOWN : Holds.YES;
    }
    return OTHER_PLASTICS.matcher(rest).find() ? Holds.NO : Holds.UNKNOWN;
  }
}
