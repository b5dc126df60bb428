package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import org.intercusp.measure.Decimal;

/**
 * A named clinician's reason for going on in spite of a finding.
 *
 * @param finding code of the finding
 * @param subject id of the element it is about
 * @param values the numbers it was given for; when they change it no longer counts
 */
public record Acceptance(
    String finding,
    String subject,
    Map<String, Decimal> values,
    String reason,
    By by,
    LocalDate on) {

  public Acceptance {
    values = Collections.unmodifiableMap(new TreeMap<>(values));
  }

  /** Who accepted, as stated. */
  public record By(Identifier identifier, String family) {}
}
