package org.intercusp.rules.appliance;

import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What a free text says of a material or an allergy. A clinic writes these in its own words, so
 * anything that may contain the substance counts as containing it unless the text says it is free
 * of it. That stainless steel and most dental wires contain nickel, and that resins cured in a
 * flask or by light are acrylics, is common knowledge of the trade, no source.
 */
enum Substance {
  ACRYLIC(
      "acryl|pmma|\\bmma\\b|\\bresin|\\bcur(ed|ing)\\b|\\bcure\\b",
      "(acryl\\w*|pmma|mma|monomer)[- ]free|(\\bno|\\bnon|without|free of)[- ]?(acryl|pmma|mma)"),
  NICKEL("nickel|\\bni\\b", "nickel[- ]free|(\\bno|\\bnon|without|free of)[- ]?nickel");

  private static final String NICKEL_FREE_ALLOYS = "titanium|gold|polymer|plastic";

  private final String named;
  private final String denied;

  Substance(String named, String denied) {
    this.named = named;
    this.denied = denied;
  }

  /** Whether a text names the substance without denying it. */
  boolean isIn(String text) {
    String lower = text.toLowerCase(Locale.ROOT);
    return Pattern.compile(named).matcher(lower).find()
        && !Pattern.compile(denied).matcher(lower).find();
  }

  /** Whether an alloy may carry nickel: unless it is known not to. */
  static boolean mayCarryNickel(@Nullable String alloy) {
    if (alloy == null) {
      return true;
    }
    String lower = alloy.toLowerCase(Locale.ROOT);
    boolean denied = Pattern.compile(NICKEL.denied).matcher(lower).find();
    boolean free = Pattern.compile(NICKEL_FREE_ALLOYS).matcher(lower).find();
    return !denied && (NICKEL.isIn(alloy) || !free);
  }
}
