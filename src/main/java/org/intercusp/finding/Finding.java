package org.intercusp.finding;

import java.util.Map;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/**
 * One thing a check has to say about a record, in the same shape at every door.
 *
 * @param code stable rule or reader code, never reused
 * @param severity how much it weighs
 * @param pointer where in the treatment file
 * @param subject id of the element it is about (a bite, an appliance ...); the treatment's own id
 *     for the whole
 * @param value what was found
 * @param limit what it was compared with
 * @param unit unit of value and limit
 * @param message one sentence for a person, with the numbers in it
 * @param remedy what to do
 * @param source where the limit comes from
 * @param values the numbers an acceptance of this finding is given for, by name
 */
public record Finding(
    String code,
    Severity severity,
    Pointer pointer,
    String subject,
    @Nullable Value value,
    @Nullable Value limit,
    @Nullable Unit unit,
    String message,
    String remedy,
    Source source,
    Map<String, Decimal> values) {

  public Finding {
    values = Map.copyOf(values);
  }
}
