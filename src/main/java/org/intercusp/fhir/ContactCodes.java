package org.intercusp.fhir;

import java.util.List;
import java.util.stream.IntStream;

/** The ten anterior contacts, five an arch from the patient's right to left. */
final class ContactCodes {

  static final List<Concept> UPPER = codes("upper");
  static final List<Concept> LOWER = codes("lower");

  private ContactCodes() {}

  private static List<Concept> codes(String arch) {
    return IntStream.rangeClosed(1, 5)
        .mapToObj(number -> Codes.measurement("contact-" + arch + "-" + number))
        .toList();
  }
}
