package org.intercusp.rules.appliance;

import java.util.Locale;
import java.util.regex.Pattern;

/**
 * What a free text says of nickel. That stainless steel and most dental wires contain it, that a
 * coating wears through, and that elastic titanium is nickel titanium, is common knowledge of the
 * trade, no source.
 */
final class Nickel {

  private static final Denial DENIED = Denial.of("nickel");
  private static final Pattern NAMED =
      Pattern.compile("nickel|\\bni\\b|\\bniti|nitinol|white gold");
  private static final Pattern FREE_ALLOYS = Pattern.compile("titanium|gold|polymer|plastic");

  /** Words of what may carry nickel, under a free alloy or beside it. */
  private static final Pattern CARRIERS =
      Pattern.compile(
          "steel|stainless|inox|chrom|cobalt|\\bco-?cr|18[/-]8|plated|plating|coat|clad|elastic"
              + "|memory|activated");

  private Nickel() {}

  static Holds in(String text) {
    String lower = text.toLowerCase(Locale.ROOT);
    if (NAMED.matcher(DENIED.takenOutOf(lower)).find()) {
      return Holds.YES;
    }
    String rest = DENIED.leaves(lower, CARRIERS);
    if (rest.isBlank() && DENIED.isIn(lower)) {
      return Holds.NO;
    }
    boolean free = FREE_ALLOYS.matcher(rest).find() && !CARRIERS.matcher(rest).find();
    return free ? Holds.NO : Holds.UNKNOWN;
  }
}
