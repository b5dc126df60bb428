package org.intercusp.treatment.submission;

import org.intercusp.finding.Pointer;

/**
 * Why an outcome record is refused. What stands at the place is not repeated, since refusals are
 * kept and the value may be a name.
 *
 * @param code stable; {@code record-...} where a rule refuses and not the form
 * @param at where in the record
 * @param expected what was expected, in words that follow "expected"
 */
public record Refusal(String code, Pointer at, String expected) {}
