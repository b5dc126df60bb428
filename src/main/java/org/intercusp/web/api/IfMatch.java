package org.intercusp.web.api;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.archive.StoredTreatment;
import org.springframework.http.HttpStatus;

/** The condition a change is asked for under (RFC 9110, 13.1.1). */
final class IfMatch {

  private static final String ANY = "*";

  // Also without quotes, and marked as weak, which proxies that compress make of a strong one.
  // Behind a version may stand what was made of it.
  private static final Pattern TAG = Pattern.compile("(?:W/)?(\"?)(\\d{1,9})(?:-[0-9a-f]{16})?\\1");

  private IfMatch() {}

  /**
   * The version that is to be replaced: the newest where any will do or where it is one of those
   * named, else one of those named, which is then found to be stale.
   */
  static int version(String header, StoredTreatment newest) {
    if (header.strip().equals(ANY)) {
      return newest.version();
    }
    List<Integer> named =
        Pattern.compile(",")
            .splitAsStream(header)
            .map(one -> TAG.matcher(one.strip()))
            .filter(Matcher::matches)
            .map(one -> Integer.valueOf(one.group(2)))
            .toList();
    if (named.isEmpty()) {
      throw Problem.of(
          HttpStatus.PRECONDITION_FAILED, "If-Match names no version of this treatment.");
    }
    return named.contains(newest.version()) ? newest.version() : named.get(0);
  }
}
