package org.intercusp.registry.bundle;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Enumerations;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.LocalSystem;
import org.intercusp.fhir.Profile;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.ReadSubmission;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionReader;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * An outcome record as a Bundle of the profile {@code outcome-bundle} and back: a Patient without a
 * name, a Consent, and in a case one Observation of the course and one of each assessment. What was
 * written reads back as the same record; what others wrote is read as strictly as a line of NDJSON.
 */
public final class OutcomeBundles {

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN).build();

  private final FhirContext context;
  private final Canonicals canonicals;
  private final CourseItems items;
  private final SubmissionReader reader = new SubmissionReader();
  private final Clock clock;

  public OutcomeBundles(FhirContext context, Canonicals canonicals, Clock clock) {
    this.context = context;
    this.canonicals = canonicals;
    this.items = new CourseItems(canonicals);
    this.clock = clock;
  }

  /** What {@code Bundle.meta.profile} names. */
  public String profile() {
    return canonicals.of(Profile.OUTCOME_BUNDLE);
  }

  /** Whether a Bundle says that it is an outcome. */
  public boolean isOutcome(Bundle bundle) {
    return bundle.getMeta().hasProfile(profile());
  }

  /** The naming system of submission ids, each within its submitter. */
  String submissions() {
    return canonicals.base() + "/sid/outcome-submission";
  }

  /** The naming system of treatment ids, each within its clinic. */
  String treatments() {
    return canonicals.base() + "/sid/treatment";
  }

  /** The naming system of revisions of a submission. */
  String revisions() {
    return canonicals.base() + "/sid/outcome-revision";
  }

  /** Writes a record. */
  public Bundle toBundle(Submission submission) {
    Bundle bundle = new Bundle().setType(Bundle.BundleType.COLLECTION);
    bundle.getMeta().addProfile(profile());
    bundle
        .getIdentifier()
        .setSystem(submissions())
        .setValue(submission.submission())
        .setAssigner(logical(submission.submitter()));
    Course course = submission.course();
    Patient patient = new Patient();
    patient.addIdentifier(written(submission.patient()));
    if (course != null) {
      patient.setBirthDateElement(new DateType(course.birthDate().toString()));
      patient.setGender(Enumerations.AdministrativeGender.fromCode(course.sex().code()));
    }
    String subject = add(bundle, submission, Profile.REGISTRY_PATIENT, "patient", patient);
    add(bundle, submission, Profile.REGISTRY_CONSENT, "consent", consent(submission, subject));
    if (course != null) {
      Observation whole = observation(submission, subject, "course");
      items.course(course, whole);
      add(bundle, submission, Profile.REGISTRY_COURSE, "course", whole);
      for (Course.Assessment each : course.assessments()) {
        Observation assessment = observation(submission, subject, "assessment");
        items.assessment(each, assessment);
        String role = "assessment-" + each.phase().code();
        add(bundle, submission, Profile.REGISTRY_ASSESSMENT, role, assessment);
      }
    }
    return bundle;
  }

  private String add(
      Bundle bundle, Submission submission, Profile profile, String role, Resource resource) {
    resource.getMeta().addProfile(canonicals.of(profile));
    String name =
        String.join(
            "\n",
            submission.submitter().system(),
            submission.submitter().value(),
            submission.submission(),
            role);
    String url = "urn:uuid:" + UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8));
    bundle.addEntry().setFullUrl(url).setResource(resource);
    return url;
  }

  private Consent consent(Submission submission, String subject) {
    Consent consent = new Consent();
    consent
        .addIdentifier()
        .setSystem(treatments())
        .setValue(submission.treatment())
        .setAssigner(logical(submission.clinic()));
    if (submission.revision() != null) {
      consent.addIdentifier().setSystem(revisions()).setValue(submission.revision().toString());
    }
    boolean withdrawn = submission.kind() == Submission.Kind.WITHDRAWAL;
    consent.setStatus(withdrawn ? Consent.ConsentState.INACTIVE : Consent.ConsentState.ACTIVE);
    consent.getScope().addCoding().setSystem(SCOPES).setCode("research");
    consent.addCategory().addCoding().setSystem(CATEGORIES).setCode("INFA");
    consent.setPatient(new Reference(subject));
    consent.setDateTimeElement(new DateTimeType(submission.consent().recordedOn().toString()));
    consent.addOrganization(logical(submission.clinic()));
    consent.getPolicyRule().addCoding().setSystem(CATEGORIES).setCode("OPTIN");
    Consent.ProvisionComponent provision = consent.getProvision();
    provision.setType(Consent.ConsentProvisionType.PERMIT);
    LocalDate end = submission.consent().withdrawnOn();
    if (end != null) {
      provision.getPeriod().setEndElement(new DateTimeType(end.toString()));
    }
    provision.addCode(Items.concept(canonicals, LocalSystem.CONSENT_SCOPE, "registry"));
    return consent;
  }

  private static final String SCOPES = "http://terminology.hl7.org/CodeSystem/consentscope";
  private static final String CATEGORIES = "http://terminology.hl7.org/CodeSystem/v3-ActCode";

  private Observation observation(Submission submission, String subject, String item) {
    Observation observation = new Observation();
    observation.setStatus(Observation.ObservationStatus.FINAL);
    observation.setCode(Items.concept(canonicals, LocalSystem.REGISTRY_ITEM, item));
    observation.setSubject(new Reference(subject));
    observation.addPerformer(logical(submission.clinic()));
    return observation;
  }

  private static org.hl7.fhir.r4.model.Identifier written(Identifier identifier) {
    return new org.hl7.fhir.r4.model.Identifier()
        .setSystem(identifier.system())
        .setValue(identifier.value());
  }

  private static Reference logical(Identifier identifier) {
    return new Reference().setType("Organization").setIdentifier(written(identifier));
  }

  /** Reads a Bundle strictly; nothing that it names is fetched. */
  public ReadSubmission fromBundle(Bundle bundle) {
    byte[] line = JSON.writeValueAsBytes(record(bundle));
    return reader.read(line, LocalDate.now(clock));
  }

  /** Reads a Bundle from JSON that the guard has admitted. */
  public ReadSubmission fromJson(String json) {
    return fromBundle(context.newJsonParser().parseResource(Bundle.class, json));
  }

  /** The Bundle as the outcome record it should be; the strict reader says where it is none. */
  ObjectNode record(Bundle bundle) {
    ObjectNode record = JSON.createObjectNode();
    Consent consent = first(bundle, Consent.class);
    boolean withdrawn = consent.getStatus() == Consent.ConsentState.INACTIVE;
    record.put("format", Submission.FORMAT);
    record.put("kind", withdrawn ? "withdrawal" : "case");
    identifier(record, "submitter", bundle.getIdentifier().getAssigner().getIdentifier());
    record.put("submission", bundle.getIdentifier().getValue());
    for (org.hl7.fhir.r4.model.Identifier each : consent.getIdentifier()) {
      String value = each.getValue();
      if (revisions().equals(each.getSystem()) && value != null && value.matches("\\d{1,9}")) {
        record.put("revision", Integer.parseInt(value));
      } else if (treatments().equals(each.getSystem())) {
        identifier(record, "clinic", each.getAssigner().getIdentifier());
        record.put("treatment", value);
      }
    }
    Patient patient = first(bundle, Patient.class);
    identifier(record, "patient", patient.getIdentifierFirstRep());
    ObjectNode agreement = record.putObject("consent");
    put(agreement, "recordedOn", consent.getDateTimeElement().getValueAsString());
    put(
        agreement,
        "withdrawnOn",
        consent.getProvision().getPeriod().getEndElement().getValueAsString());
    items.read(observations(bundle), patient, record);
    return record;
  }

  private static void put(
      ObjectNode into, String member, @org.jspecify.annotations.Nullable String text) {
    if (text != null) {
      into.put(member, text);
    }
  }

  private static void identifier(
      ObjectNode record, String member, org.hl7.fhir.r4.model.Identifier identifier) {
    ObjectNode node = record.putObject(member);
    put(node, "system", identifier.getSystem());
    put(node, "value", identifier.getValue());
  }

  private static <R extends Resource> R first(Bundle bundle, Class<R> type) {
    return all(bundle, type).stream()
        .findFirst()
        .orElseGet(() -> type.cast(type == Consent.class ? new Consent() : new Patient()));
  }

  private static List<Observation> observations(Bundle bundle) {
    return all(bundle, Observation.class);
  }

  private static <R extends Resource> List<R> all(Bundle bundle, Class<R> type) {
    return bundle.getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(type::isInstance)
        .map(type::cast)
        .toList();
  }
}
