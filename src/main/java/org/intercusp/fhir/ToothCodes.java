package org.intercusp.fhir;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.intercusp.dentition.Tooth;

/**
 * Teeth with two codings, ISO 3950 and SNOMED CT (Global Patient Set, CC BY 4.0, SNOMED
 * International). Reading takes either, and the Universal numbering of United States records; a
 * concept without any of them names no tooth.
 */
final class ToothCodes {

  static final String ISO_3950 = "urn:iso:std:iso:3950";

  /** The URL of HL7's terminology for the Universal numbering, from memory of it. */
  static final String UNIVERSAL =
      "http://terminology.hl7.org/CodeSystem/ADAUniversalToothDesignationSystem";

  private static final ToothCodes PUBLISHED = load("/terminology/tooth-codes.tsv");

  private final Map<String, Coding> snomedByTooth;
  private final Map<String, String> byUniversal;

  private ToothCodes(Map<String, Coding> snomedByTooth, Map<String, String> byUniversal) {
    this.snomedByTooth = snomedByTooth;
    this.byUniversal = byUniversal;
  }

  static ToothCodes published() {
    return PUBLISHED;
  }

  /** All teeth, in the order of their codes. */
  List<String> all() {
    return List.copyOf(snomedByTooth.keySet());
  }

  CodeableConcept concept(Tooth tooth) {
    Coding snomed = Objects.requireNonNull(snomedByTooth.get(tooth.code()), tooth.code());
    return new CodeableConcept()
        .addCoding(new Coding().setSystem(ISO_3950).setCode(tooth.code()))
        .addCoding(snomed.copy());
  }

  /** The two-digit code a concept carries, well formed or not. */
  Optional<String> tooth(CodeableConcept concept) {
    for (Coding coding : concept.getCoding()) {
      if (ISO_3950.equals(coding.getSystem()) && coding.hasCode()) {
        return Optional.of(coding.getCode());
      }
    }
    return concept.getCoding().stream().flatMap(coding -> named(coding).stream()).findFirst();
  }

  private Optional<String> named(Coding coding) {
    if (UNIVERSAL.equals(coding.getSystem()) && coding.hasCode()) {
      return Optional.ofNullable(byUniversal.get(coding.getCode()));
    }
    return snomedByTooth.entrySet().stream()
        .filter(entry -> Codes.SNOMED.equals(coding.getSystem()))
        .filter(entry -> entry.getValue().getCode().equals(coding.getCode()))
        .map(Map.Entry::getKey)
        .findFirst();
  }

  private static ToothCodes load(String resource) {
    Map<String, Coding> teeth = new TreeMap<>();
    Map<String, String> universal = new TreeMap<>();
    try (InputStream in = ToothCodes.class.getResourceAsStream(resource);
        BufferedReader lines =
            new BufferedReader(
                new InputStreamReader(Objects.requireNonNull(in), StandardCharsets.UTF_8))) {
      lines.readLine();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        String[] cells = line.split("\t", -1);
        teeth.put(cells[0], new Coding(Codes.SNOMED, cells[1], cells[3]));
        universal.put(cells[2], cells[0]);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return new ToothCodes(teeth, universal);
  }
}
