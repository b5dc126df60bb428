package org.intercusp.finding;

/**
 * How much a finding weighs. An error stops a delivery until a named clinician accepts it with a
 * reason; refused is overridden by no reason; an urgent finding is a sign of harm, which holds no
 * delivery back and stops only the next appliance order.
 */
public enum Severity {
  REFUSED("refused"),
  URGENT("urgent"),
  ERROR("error"),
  WARNING("warning"),
  INFORMATION("information");

  private final String code;

  Severity(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}
