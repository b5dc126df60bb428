package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;

/** The one judge of the tests, since making one takes seconds, and Bundles to judge. */
final class Judges {

  static final FhirContext FHIR = FhirContext.forR4Cached();

  static final Conformance SHARED =
      new Conformance(
          FHIR,
          GuardLimits.DEFAULT,
          Clock.fixed(Instant.parse("2026-09-01T00:00:00Z"), ZoneOffset.UTC));

  private Judges() {}

  /** A treatment with every member of the dictionary; it breaks some rules of the trade. */
  static Treatment whole() {
    return treatment("/fhir/whole-treatment.json");
  }

  /** A treatment that breaks no rule. */
  static Treatment sound() {
    return treatment("/org/intercusp/rules/sample-base.json");
  }

  private static Treatment treatment(String resource) {
    try (InputStream in = Judges.class.getResourceAsStream(resource)) {
      ReadResult result =
          new TreatmentReader().read(Objects.requireNonNull(in, resource).readAllBytes());
      if (result instanceof ReadResult.Accepted accepted) {
        return accepted.treatment();
      }
      throw new AssertionError(((ReadResult.Refused) result).faults().toString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Bundle bundle(Treatment treatment, BundleForm form) {
    LocalDate on = Objects.requireNonNull(treatment.asOf());
    List<Finding> findings =
        new Examiner().examine(treatment, on).findings().stream().map(Judged::finding).toList();
    return new TreatmentMapper(Canonicals.RESERVED).toBundle(treatment, on, findings, form);
  }

  static List<Issue> stopping(List<Issue> issues) {
    return issues.stream().filter(issue -> issue.weight().stops()).toList();
  }
}
