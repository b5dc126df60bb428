package org.intercusp.web.pages;

import java.util.Locale;
import java.util.Map;

/** Names of the record as people in the trade say them. */
final class Trade {

  private static final Map<String, String> SPECIAL =
      Map.ofEntries(
          Map.entry("asOf", "day the record speaks of"),
          Map.entry("acceptances", "acceptance"),
          Map.entry("appliances", "appliance"),
          Map.entry("bites", "construction bite"),
          Map.entry("stages", "stage"),
          Map.entry("reviews", "review"),
          Map.entry("films", "film"),
          Map.entry("models", "study model"),
          Map.entry("outcomes", "outcome"),
          Map.entry("adverseEvents", "adverse event"),
          Map.entry("breakages", "breakage"),
          Map.entry("goals", "goal"),
          Map.entry("blocks", "block"),
          Map.entry("clasps", "clasp"),
          Map.entry("trimmed", "trimming"),
          Map.entry("lab", "laboratory order"),
          Map.entry("dhc", "dental health component"),
          Map.entry("par", "PAR"),
          Map.entry("icon", "ICON"),
          Map.entry("ipsId", "imaging id"),
          Map.entry("given", "given"),
          Map.entry("le", "at most"),
          Map.entry("ge", "at least"),
          Map.entry("lost-to-follow-up", "lost to follow-up"));

  private Trade() {}

  /** {@code overjetHabitual} and {@code in-treatment} as words. */
  static String words(String name) {
    String special = SPECIAL.get(name);
    if (special != null) {
      return special;
    }
    return name.replaceAll("(?<=[a-z0-9])(?=[A-Z])", " ")
        .replace('-', ' ')
        .toLowerCase(Locale.ROOT);
  }

  /** The same, with a capital letter. */
  static String title(String name) {
    String words = words(name);
    return words.isEmpty()
        ? words
        : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
