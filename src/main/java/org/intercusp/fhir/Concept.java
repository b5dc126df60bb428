package org.intercusp.fhir;

import java.util.Locale;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.jspecify.annotations.Nullable;

/**
 * A code with its system and what a person reads: of a published system, or one of ours.
 *
 * @param published URI of the published system, or absent
 * @param local our system, or absent
 */
record Concept(
    @Nullable String published, @Nullable LocalSystem local, String code, String display) {

  static Concept of(String system, String code, String display) {
    return new Concept(system, null, code, display);
  }

  static Concept local(LocalSystem system, String code, String display) {
    return new Concept(null, system, code, display);
  }

  /** A local code whose words are what a person reads. */
  static Concept local(LocalSystem system, String code) {
    String words = code.replace('-', ' ');
    return local(system, code, words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1));
  }

  String system(Canonicals canonicals) {
    return local == null ? String.valueOf(published) : canonicals.of(local);
  }

  /** A published coding goes without display: its owner words it, and our words are the text. */
  Coding coding(Canonicals canonicals) {
    Coding coding = new Coding().setSystem(system(canonicals)).setCode(code);
    return local == null ? coding : coding.setDisplay(display);
  }

  CodeableConcept concept(Canonicals canonicals) {
    return new CodeableConcept(coding(canonicals)).setText(display);
  }

  boolean isIn(CodeableConcept concept, Canonicals canonicals) {
    return concept.getCoding().stream()
        .anyMatch(c -> system(canonicals).equals(c.getSystem()) && code.equals(c.getCode()));
  }
}
