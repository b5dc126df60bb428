package org.intercusp.audit;

import java.util.stream.Stream;

/** How it ended (http://hl7.org/fhir/R4/valueset-audit-event-outcome.html). */
public enum Outcome {
  SUCCESS("0"),
  /** The caller's fault, or not theirs to ask. */
  REFUSED("4"),
  /** A fault of ours or of the other side. */
  FAILED("8");

  private final String code;

  Outcome(String code) {
    this.code = code;
  }

  /** FHIR's code. */
  public String code() {
    return code;
  }

  static Outcome of(String code) {
    return Stream.of(values()).filter(one -> one.code.equals(code)).findFirst().orElseThrow();
  }
}
