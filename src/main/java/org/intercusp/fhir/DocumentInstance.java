package org.intercusp.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.treatment.Identifier;

/**
 * The identifier of one document. FHIR R4, 3.3.1 (documents): that of the Bundle is never used for
 * another content, while the Composition keeps its own from version to version.
 */
final class DocumentInstance {

  private static final int BYTES = 16;

  private DocumentInstance() {}

  /** Identifies a document that is complete but for this, the same content always the same. */
  static void identify(Bundle document, Identifier composition) {
    String content = FhirContext.forR4Cached().newJsonParser().encodeResourceToString(document);
    Identifier instance =
        new Identifier(composition.system(), composition.value() + "/" + digest(content));
    document.setIdentifier((org.hl7.fhir.r4.model.Identifier) Writing.fhir(instance));
  }

  private static String digest(String content) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(content.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest, 0, BYTES);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
