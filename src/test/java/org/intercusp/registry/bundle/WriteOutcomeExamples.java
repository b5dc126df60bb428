package org.intercusp.registry.bundle;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashSet;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.Canonicals;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.treatment.submission.Submission;

/** Writes the examples of the registry's profiles anew, on purpose; no test does. */
public final class WriteOutcomeExamples {

  private static final IParser JSON = FhirContext.forR4Cached().newJsonParser();

  private WriteOutcomeExamples() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws IOException {
    OutcomeBundles bundles =
        new OutcomeBundles(FhirContext.forR4Cached(), Canonicals.RESERVED, Clock.systemUTC());
    Submission submission = new OutcomeGenerator().records(1, 7).findFirst().orElseThrow();
    Bundle bundle = bundles.toBundle(submission);
    write(bundle, "outcome-bundle");
    Set<String> done = new HashSet<>();
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      Resource resource = entry.getResource();
      if (resource instanceof Observation observation) {
        observation.setSubject(new Reference("Patient/registry-patient-example"));
      } else if (resource instanceof Consent consent) {
        consent.setPatient(new Reference("Patient/registry-patient-example"));
      }
      String profile = resource.getMeta().getProfile().get(0).getValue();
      String name = profile.substring(profile.lastIndexOf('/') + 1);
      if (done.add(name)) {
        write(resource, name);
      }
    }
  }

  private static void write(Resource resource, String name) throws IOException {
    resource.setId(name + "-example");
    Path file = Path.of("profiles/example", resource.fhirType() + "-" + name + "-example.json");
    Files.writeString(file, JSON.setPrettyPrint(true).encodeResourceToString(resource) + "\n");
  }
}
