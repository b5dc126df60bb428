package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;

/**
 * Judges FHIR R4 documents offline: guard first, then FHIR conformance. Issues come sorted, and the
 * same document always gives the same list.
 *
 * <p>One instance serves many threads. Making it takes seconds and {@link #warm()} some more, so a
 * service makes one at its start.
 */
public final class Conformance {

  private final FhirContext context;
  private final Guard guard;
  private final ProfilesPackage profiles;
  private final GeneralValidator general;
  private final DeepThreads threads = new DeepThreads();

  public Conformance(FhirContext context, Guard guard) {
    this.context = context;
    this.guard = guard;
    DefaultProfileValidationSupport base = new DefaultProfileValidationSupport(context);
    this.profiles = ProfilesPackage.load(context, base);
    this.general = new GeneralValidator(context, base, profiles);
  }

  /** Judges a document by what its resources claim. */
  public List<Issue> validate(byte[] document, Format format) {
    return validate(document, format, Set.of());
  }

  /** Judges a document also by the profiles given, whatever its root claims. */
  public List<Issue> validate(byte[] document, Format format, Set<String> alsoProfiles) {
    Admission admission = guard.admit(document, format);
    if (admission instanceof Admission.Refused refused) {
      return List.of(refused.issue());
    }
    String text = ((Admission.Admitted) admission).text();
    return threads.run(() -> general.validate(text, format, alsoProfiles)).stream()
        .distinct()
        .sorted(Issue.ORDER)
        .toList();
  }

  /** Judges a resource in memory; its issues have no line and column. */
  public List<Issue> validate(Resource resource) {
    String json = context.newJsonParser().encodeResourceToString(resource);
    return validate(json.getBytes(StandardCharsets.UTF_8), Format.JSON).stream()
        .map(Conformance::withoutSpot)
        .distinct()
        .sorted(Issue.ORDER)
        .toList();
  }

  /**
   * Lets a Bundle leave only when it conforms.
   *
   * @throws NotConformant with every issue, when one of them stops it
   */
  public void mustPass(Bundle bundle) {
    List<Issue> issues = validate(bundle);
    if (issues.stream().anyMatch(issue -> issue.weight().stops())) {
      throw new NotConformant(issues);
    }
  }

  /** Loads what the first judgement would otherwise load. */
  public void warm() {
    Patient patient = new Patient();
    patient.addIdentifier().setSystem("urn:oid:2.16.840.1").setValue("0");
    for (Format format : Format.values()) {
      String text =
          (format == Format.JSON ? context.newJsonParser() : context.newXmlParser())
              .encodeResourceToString(patient);
      validate(text.getBytes(StandardCharsets.UTF_8), format);
    }
  }

  ProfilesPackage profiles() {
    return profiles;
  }

  private static Issue withoutSpot(Issue issue) {
    return new Issue(
        issue.weight(),
        issue.type(),
        issue.rule(),
        issue.text(),
        issue.expression(),
        issue.value(),
        null,
        null);
  }
}
