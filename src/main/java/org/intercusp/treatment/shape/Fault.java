package org.intercusp.treatment.shape;

import org.intercusp.finding.Pointer;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/**
 * One place where a file differs from its description.
 *
 * @param at where, or for a missing member where it would stand
 * @param value what stands there
 * @param expected what was expected, in words that follow "expected"
 * @param unit unit of a number
 * @param source where the expectation comes from
 */
public record Fault(
    Code code,
    Pointer at,
    @Nullable Value value,
    String expected,
    @Nullable Unit unit,
    Source source) {

  /** Kinds of fault; the text is stable and stands in every answer. */
  public enum Code {
    TOOTH_CODE("tooth-code"),
    SCORE_RANGE("score-range"),
    UNKNOWN_MEMBER("unknown-member"),
    WRONG_TYPE("wrong-type"),
    OUT_OF_RANGE("out-of-range"),
    NOT_A_DATE("not-a-date"),
    MISSING_MEMBER("missing-member"),
    DUPLICATE_MEMBER("duplicate-member"),
    DUPLICATE_ID("duplicate-id"),
    UNKNOWN_REFERENCE("unknown-reference"),
    NOT_JSON("not-json"),
    TOO_LARGE("too-large"),
    TOO_MANY_FAULTS("too-many-faults");

    private final String text;

    Code(String text) {
      this.text = text;
    }

    public String text() {
      return text;
    }
  }
}
