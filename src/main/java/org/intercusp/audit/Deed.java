package org.intercusp.audit;

import java.util.stream.Stream;

/**
 * What was done. The code is that of FHIR's restful interactions where there is one
 * (http://hl7.org/fhir/R4/valueset-type-restful-interaction.html), the action that of DICOM as FHIR
 * takes it over (http://hl7.org/fhir/R4/valueset-audit-event-action.html).
 */
public enum Deed {
  CREATE("create", 'C'),
  READ("read", 'R'),
  HISTORY("history-instance", 'R'),
  /** Of every resource of a type. */
  HISTORY_OF_TYPE("history-type", 'R'),
  /** Of every resource there is. */
  HISTORY_OF_ALL("history-system", 'R'),
  SEARCH("search-type", 'E'),
  UPDATE("update", 'U'),
  DELETE("delete", 'D'),
  /** A delivery, an export or a load of outcomes was asked for. */
  QUEUE("queue", 'E'),
  /** Something was handed to somebody outside: a delivery, a document, an export. */
  DISCLOSE("disclose", 'R'),
  /** Something was asked for and refused. */
  REFUSE("refuse", 'E');

  private final String code;
  private final char action;

  Deed(String code, char action) {
    this.code = code;
    this.action = action;
  }

  /** Its code. */
  public String code() {
    return code;
  }

  /** C, R, U, D or E. */
  public char action() {
    return action;
  }

  /** Whether the code is one of FHIR's own. */
  public boolean isRestful() {
    return this != QUEUE && this != DISCLOSE && this != REFUSE;
  }

  /** Whether it is by parameters that tell what was sought. */
  boolean hasQuery() {
    return this == SEARCH || this == HISTORY || this == HISTORY_OF_TYPE || this == HISTORY_OF_ALL;
  }

  static Deed of(String code) {
    return Stream.of(values()).filter(one -> one.code.equals(code)).findFirst().orElseThrow();
  }
}
