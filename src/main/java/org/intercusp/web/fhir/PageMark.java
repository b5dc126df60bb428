package org.intercusp.web.fhir;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;

/**
 * Where a page ended, as a caller hands it back in {@code _page}: opaque to the caller, and never
 * trusted.
 *
 * @param moment what was true when the first page was asked for
 * @param place behind which the next page begins
 */
record PageMark(long moment, List<String> place) {

  static final String NAME = "_page";

  /** The longest page; more is asked for by the next. Common practice, no source. */
  static final int LONGEST = 200;

  /** The length of a page where none is asked for; common practice, no source. */
  private static final int USUAL = 50;

  PageMark {
    place = List.copyOf(place);
  }

  String write() {
    List<String> parts = new ArrayList<>(List.of(Long.toString(moment)));
    parts.addAll(place);
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(String.join("~", parts).getBytes(StandardCharsets.UTF_8));
  }

  /** Reads a mark of as many parts as expected. */
  static PageMark read(String text, int parts) {
    try {
      String plain = new String(Base64.getUrlDecoder().decode(text), StandardCharsets.UTF_8);
      List<String> read = List.of(plain.split("~", -1));
      if (read.size() == parts + 1
          && read.get(0).matches("\\d{1,18}")
          && read.stream().allMatch(one -> one.matches("[A-Za-z0-9\\-.]{1,64}"))) {
        return new PageMark(Long.parseLong(read.get(0)), read.subList(1, read.size()));
      }
    } catch (IllegalArgumentException e) {
      // falls through to the refusal
    }
    throw notAPlace();
  }

  /** The number in a part of a mark. */
  static long number(String part) {
    if (!part.matches("\\d{1,18}")) {
      throw notAPlace();
    }
    return Long.parseLong(part);
  }

  /** The length of a page that {@code _count} asks for, if it does. */
  static int length(List<String> counts) {
    if (counts.isEmpty()) {
      return USUAL;
    }
    if (counts.size() > 1 || !counts.get(0).matches("\\d{1,9}")) {
      throw Fault.of(Reason.PARAMETER, "_count is a whole number, said once.");
    }
    return Math.min(LONGEST, Integer.parseInt(counts.get(0)));
  }

  private static Fault notAPlace() {
    return Fault.of(Reason.PARAMETER, NAME + " is no place in this list; follow the next links.");
  }
}
