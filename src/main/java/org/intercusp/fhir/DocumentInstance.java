package org.intercusp.fhir;

import ca.uhn.fhir.context.FhirContext;
import org.apache.commons.codec.digest.DigestUtils;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.treatment.Identifier;

/**
 * The identifier of one document. FHIR R4, 3.3.1 (documents): that of the Bundle is never used for
 * another content, while the Composition keeps its own from version to version.
 */
final class DocumentInstance {

  /** Of a SHA-256: 128 bits, as a UUID has. */
  private static final int DIGITS = 32;

  private DocumentInstance() {}

  /** Identifies a document that is complete but for this, the same content always the same. */
  static void identify(Bundle document, Identifier composition) {
    String content = FhirContext.forR4Cached().newJsonParser().encodeResourceToString(document);
    Identifier instance =
        new Identifier(composition.system(), composition.value() + "/" + digest(content));
    document.setIdentifier((org.hl7.fhir.r4.model.Identifier) Writing.fhir(instance));
  }

  private static String digest(String content) {
    return DigestUtils.sha256Hex(content).substring(0, DIGITS);
  }
}
