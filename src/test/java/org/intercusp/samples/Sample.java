package org.intercusp.samples;

import static java.nio.charset.StandardCharsets.UTF_8;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examination;
import org.intercusp.rules.ExaminationWriter;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;

/** One invented treatment of {@code sample-bundles}, with what the code makes of it now. */
record Sample(String name) {

  private static final Path DIRECTORY = Path.of("sample-bundles");
  private static final String ENDING = ".treatment.json";
  private static final FhirContext FHIR = FhirContext.forR4Cached();

  /** All of them, in the order of their names. */
  static List<Sample> all() {
    try (Stream<Path> files = Files.list(DIRECTORY)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(file -> file.endsWith(ENDING))
          .sorted()
          .map(file -> new Sample(file.substring(0, file.length() - ENDING.length())))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  byte[] file() {
    return bytes(DIRECTORY.resolve(name + ENDING));
  }

  Path findingsFile() {
    return DIRECTORY.resolve(name + ".findings.json");
  }

  Path bundleFile() {
    return DIRECTORY.resolve(name + ".bundle.json");
  }

  /** What a golden file says. */
  static String golden(Path file) {
    return new String(bytes(file), UTF_8);
  }

  private static byte[] bytes(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  Treatment treatment() {
    ReadResult result = new TreatmentReader().read(file());
    if (result instanceof ReadResult.Accepted accepted) {
      return accepted.treatment();
    }
    throw new IllegalStateException(name + " is refused: " + result);
  }

  private static LocalDate on(Treatment treatment) {
    return Objects.requireNonNull(treatment.asOf(), "a sample says the day it speaks of");
  }

  Examination examination() {
    Treatment treatment = treatment();
    return new Examiner().examine(treatment, on(treatment));
  }

  /** The figures and findings as {@code check --format json} prints them. */
  String findings() {
    return new ExaminationWriter().text(examination()) + "\n";
  }

  Bundle bundle() {
    Treatment treatment = treatment();
    List<Finding> findings = examination().findings().stream().map(Judged::finding).toList();
    return new TreatmentMapper(Canonicals.RESERVED)
        .toBundle(treatment, on(treatment), findings, BundleForm.TRANSACTION);
  }

  /** The transaction as {@code map} prints it. */
  String bundleText() {
    return FHIR.newJsonParser().setPrettyPrint(true).encodeResourceToString(bundle()) + "\n";
  }

  @Override
  public String toString() {
    return name;
  }
}
