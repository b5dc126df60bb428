package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import org.intercusp.fhir.Canonicals;

/** Prints {@code profiles/CapabilityStatement-service.json}, for when what is claimed changed. */
final class PublishedStatement {

  private PublishedStatement() {}

  public static void main(String[] arguments) {
    System.out.println(text());
  }

  static String text() {
    return FhirContext.forR4Cached()
        .newJsonParser()
        .setPrettyPrint(true)
        .encodeResourceToString(new Statement(Canonicals.RESERVED).published());
  }
}
