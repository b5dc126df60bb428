package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.hl7.fhir.r4.model.CodeSystem;

/**
 * The codes of other people's systems that our resources carry, as fragments: enough to judge
 * offline, with the notices their owners ask for. They are no part of the published package.
 */
final class Fragments {

  private static final List<String> NAMES =
      List.of("loinc", "snomed", "iso-3950", "us-dental-category");

  private Fragments() {}

  static List<CodeSystem> load(FhirContext context) {
    return NAMES.stream()
        .map(name -> context.newJsonParser().parseResource(CodeSystem.class, text(name)))
        .toList();
  }

  private static String text(String name) {
    String file = "terminology/CodeSystem-" + name + ".json";
    try (InputStream in = Fragments.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException(file + " is not on the class path");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file, e);
    }
  }
}
