package org.intercusp.conformance;

import java.util.Comparator;
import org.jspecify.annotations.Nullable;

/**
 * One thing wrong, or worth saying, about a FHIR document.
 *
 * @param weight how much it weighs
 * @param type the code of {@code http://hl7.org/fhir/issue-type}
 * @param rule our own code, stable: {@code guard-...}, {@code fhir-...}, or a trade rule's
 * @param text one sentence for a person
 * @param expression a FHIRPath that resolves to the element; absent when there is no element, as in
 *     a document that could not be read
 * @param value the offending value as written
 * @param line from 1; absent when the document was not handed in as text
 * @param column from 1, in characters
 */
public record Issue(
    Weight weight,
    String type,
    String rule,
    String text,
    @Nullable String expression,
    @Nullable String value,
    @Nullable Integer line,
    @Nullable Integer column) {

  /** Heaviest first, then by place in the text, then by everything else: equal lists sort equal. */
  static final Comparator<Issue> ORDER =
      Comparator.comparing(Issue::weight)
          .thenComparing(Issue::line, Comparator.nullsLast(Comparator.naturalOrder()))
          .thenComparing(Issue::column, Comparator.nullsLast(Comparator.naturalOrder()))
          .thenComparing(Issue::expression, Comparator.nullsFirst(Comparator.naturalOrder()))
          .thenComparing(Issue::rule)
          .thenComparing(Issue::text)
          .thenComparing(Issue::type)
          .thenComparing(Issue::value, Comparator.nullsFirst(Comparator.naturalOrder()));

  /** The same where its document is one line of many: its line is the {@code number}th, from 1. */
  public Issue inLine(int number) {
    return line == null || column == null ? this : at(new Spot(number + line - 1, column));
  }

  /** The same, at another place in the text; at none where there is no text. */
  Issue at(@Nullable Spot spot) {
    @Nullable Integer atLine = spot == null ? null : Integer.valueOf(spot.line());
    @Nullable Integer atColumn = spot == null ? null : Integer.valueOf(spot.column());
    return new Issue(weight, type, rule, text, expression, value, atLine, atColumn);
  }
}
