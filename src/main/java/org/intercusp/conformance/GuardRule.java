package org.intercusp.conformance;

/**
 * The classes of attack or fault that the guard refuses, each with our code and FHIR's issue type.
 */
enum GuardRule {
  SIZE("guard-size", "too-long"),
  ENCODING("guard-encoding", "structure"),
  SYNTAX("guard-syntax", "structure"),
  DEPTH("guard-depth", "too-costly"),
  TOKENS("guard-tokens", "too-costly"),
  TEXT_LENGTH("guard-text-length", "too-long"),
  NAME_LENGTH("guard-name-length", "too-long"),
  NUMBER_LENGTH("guard-number-length", "too-long"),
  EXPONENT("guard-exponent", "too-costly"),
  ITEMS("guard-items", "too-costly"),
  MEMBERS("guard-members", "too-costly"),
  ENTRIES("guard-entries", "too-costly"),
  RESOURCES("guard-resources", "too-costly"),
  CONTAINED("guard-contained", "too-costly"),
  CHAIN("guard-reference-chain", "too-costly"),
  PROFILES("guard-profiles", "too-costly"),
  CHARACTER("guard-character", "value"),
  DUPLICATE_MEMBER("guard-duplicate-member", "structure"),
  TRAILING("guard-trailing", "structure"),
  NO_RESOURCE("guard-no-resource", "structure"),
  DOCTYPE("guard-doctype", "security"),
  ENTITY("guard-entity", "security"),
  INSTRUCTION("guard-instruction", "security"),
  NAMESPACE("guard-namespace", "structure"),
  NARRATIVE("guard-narrative", "security");

  private final String code;
  private final String type;

  GuardRule(String code, String type) {
    this.code = code;
    this.type = type;
  }

  /** Our code, as it stands in {@code OperationOutcome.issue.details.coding}. */
  public String code() {
    return code;
  }

  /** The code of {@code http://hl7.org/fhir/issue-type}. */
  String type() {
    return type;
  }
}
