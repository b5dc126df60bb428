package org.intercusp.web.pages.entry;

import java.util.Collections;
import java.util.Map;
import java.util.Set;

/**
 * What each figure of a bite is computed from, so that it is shown as soon as that is typed and
 * never from a stand-in.
 */
final class FigureNeeds {

  private static final Set<String> PATH =
      Set.of("retrudedReading", "habitualReading", "maximumReading");
  private static final Set<String> SHARE =
      Set.of("retrudedReading", "habitualReading", "registeredReading", "maximumReading");
  private static final Set<String> GAPS =
      Set.of(
          "recordedOn",
          "overjetHabitual",
          "overjetInBite",
          "overbiteHabitual",
          "incisalClearance",
          "premolarClearance",
          "molarClearance");
  private static final Set<String> PLAN =
      Set.of(
          "retrudedReading", "habitualReading", "maximumReading", "overjetHabitual", "comfortable");

  private static final Map<String, Set<String>> OF_FIGURE =
      Map.ofEntries(
          Map.entry("path", PATH),
          Map.entry("activation", SHARE),
          Map.entry("slide", PATH),
          Map.entry("share-of-path", SHARE),
          Map.entry("step", Set.of("habitualReading", "registeredReading")),
          Map.entry(
              "overjet-explained",
              Set.of("habitualReading", "registeredReading", "overjetHabitual")),
          Map.entry(
              "height-in-occlusion",
              Set.of("recordedOn", "upperIncisorHeight", "lowerIncisorHeight", "overbiteHabitual")),
          Map.entry(
              "height-in-bite",
              Set.of("recordedOn", "upperIncisorHeight", "lowerIncisorHeight", "incisalClearance")),
          Map.entry("gap-first-premolar", GAPS),
          Map.entry("gap-second-premolar", GAPS),
          Map.entry("gap-first-molar", GAPS),
          Map.entry("advance-allowed", PLAN),
          Map.entry("advance-first-step", PLAN));

  private FigureNeeds() {}

  /** Whether a figure depends on none of these members; one not listed here depends on all. */
  static boolean freeOf(Set<String> members, String figure) {
    Set<String> needed = OF_FIGURE.get(figure);
    return members.isEmpty() || (needed != null && Collections.disjoint(needed, members));
  }
}
