package org.intercusp.conformance;

import ca.uhn.fhir.validation.SingleValidationMessage;
import java.util.regex.Pattern;

/**
 * Sorts what the validator says into rules of ours, by the identifier of its message; what it says
 * while it still reads has none, and goes by its words.
 */
enum FhirRule {
  CONSTRAINT("fhir-constraint", "invariant", "https?://.*|constraint_.*"),
  CARDINALITY("fhir-cardinality", "required", "validation_val_profile_(minimum|maximum).*"),
  UNKNOWN_MEMBER(
      "fhir-unknown-member",
      "structure",
      "unrecognized property .*|undefined (element|attribute) .*"),
  UNKNOWN_PROFILE("fhir-unknown-profile", "not-supported", "validation_val_profile_unknown.*"),
  PATTERN("fhir-pattern", "value", "fixed_.*|pattern_.*|_dt_fixed.*|profile_val_.*"),
  SLICE("fhir-slice", "structure", "validation_val_profile_notslice.*|slicing_.*|sliced.*"),
  EXTENSION("fhir-extension", "extension", "extension_.*"),
  REFERENCE("fhir-reference", "not-found", "reference_.*|bundle_bundle_entry_notfound.*"),
  BUNDLE("fhir-bundle", "structure", "bundle_.*"),
  CODE("fhir-code", "code-invalid", "terminology_.*|unknown_code.*|display_.*|code_.*"),
  NARRATIVE("fhir-narrative", "structure", "xhtml_.*"),
  FORMAT("fhir-format", "value", "type_specific_checks_.*|illegal_.*|primitive_.*"),
  OTHER("fhir-structure", "structure", ".*");

  private final String code;
  private final String type;
  private final Pattern messages;

  FhirRule(String code, String type, String messages) {
    this.code = code;
    this.type = type;
    this.messages = Pattern.compile(messages, Pattern.CASE_INSENSITIVE | Pattern.DOTALL);
  }

  /** Our code, as it stands in {@code OperationOutcome.issue.details.coding}. */
  String code() {
    return code;
  }

  /** The code of {@code http://hl7.org/fhir/issue-type}. */
  String type() {
    return type;
  }

  /** The first that takes the message; the order of the constants matters. */
  static FhirRule of(SingleValidationMessage message) {
    String id = message.getMessageId();
    String said = id == null ? String.valueOf(message.getMessage()) : id;
    for (FhirRule rule : values()) {
      if (rule.messages.matcher(said).matches()) {
        return rule;
      }
    }
    return OTHER;
  }
}
