package org.intercusp.fhir.version;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;

/** What is converted in these tests: every sample, one with every member, and invented ones. */
final class Treatments {

  static final FhirContext FHIR = FhirContext.forR4Cached();
  static final TreatmentMapper MAPPER = new TreatmentMapper(Canonicals.RESERVED);

  private Treatments() {}

  static Treatment whole() {
    return read(Path.of("src/test/resources/fhir/whole-treatment.json"));
  }

  static List<Treatment> samples() {
    List<Treatment> all = new ArrayList<>(List.of(whole()));
    try (Stream<Path> files = Files.list(Path.of("sample-bundles"))) {
      files
          .filter(file -> file.toString().endsWith(".treatment.json"))
          .sorted()
          .forEach(file -> all.add(read(file)));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    return all;
  }

  static List<Treatment> generated(int count) {
    return new TreatmentGenerator().treatments(count, 20261125L).toList();
  }

  static Bundle bundle(Treatment treatment, BundleForm form) {
    LocalDate on = Objects.requireNonNullElse(treatment.asOf(), LocalDate.of(2026, 9, 1));
    List<Finding> findings =
        new Examiner().examine(treatment, on).findings().stream().map(Judged::finding).toList();
    return MAPPER.toBundle(treatment, on, findings, form);
  }

  private static Treatment read(Path file) {
    try {
      ReadResult result = new TreatmentReader().read(Files.readAllBytes(file));
      if (result instanceof ReadResult.Accepted accepted) {
        return accepted.treatment();
      }
      throw new AssertionError(((ReadResult.Refused) result).faults().toString());
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
