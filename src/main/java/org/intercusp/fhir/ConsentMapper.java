package org.intercusp.fhir;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.Consent.ConsentProvisionType;
import org.hl7.fhir.r4.model.Consent.ConsentState;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Consent to pass the record on. Its period ends on the day before it is withdrawn. */
final class ConsentMapper {

  private static final Kind<ConsentScope> SCOPE = Kind.coded(LocalSystem.CONSENT_SCOPE);

  void toFhir(org.intercusp.treatment.@Nullable Consent consent, Writing writing) {
    if (consent == null) {
      return;
    }
    Consent resource = new Consent();
    LocalDate withdrawn = consent.withdrawnOn();
    resource.setStatus(
        !consent.given()
            ? ConsentState.REJECTED
            : withdrawn == null ? ConsentState.ACTIVE : ConsentState.INACTIVE);
    resource.setScope(Codes.hl7Concept("consentscope", "patient-privacy", "Privacy Consent"));
    resource.addCategory(Codes.hl7Concept("v3-ActCode", "IDSCL", "information disclosure"));
    resource.setPatient(writing.patient());
    resource.setDateTimeElement(Writing.day(consent.recordedOn()));
    resource.addPerformer(new Reference().setDisplay(consent.givenBy()));
    // A policy must be named (ppc-1). The rule codes opt-in and opt-out stand outside the value set
    // that policyRule is bound to, so the policy is named by its URL.
    resource.addPolicy().setUri(writing.canonicals().consentPolicy());
    Consent.ProvisionComponent provision = resource.getProvision();
    provision.setType(consent.given() ? ConsentProvisionType.PERMIT : ConsentProvisionType.DENY);
    if (withdrawn != null) {
      provision.getPeriod().setEndElement(Writing.day(withdrawn.minusDays(1)));
    }
    for (ConsentScope scope : consent.scope()) {
      provision.addCode((CodeableConcept) SCOPE.out().apply(scope, writing.canonicals()));
    }
    writing.add(resource, Role.CONSENT);
  }

  void fromFhir(Draft patient, Reading reading) {
    List<Consent> consents = reading.all(Consent.class);
    if (consents.isEmpty()) {
      return;
    }
    Consent resource = consents.get(0);
    String path = reading.path(resource);
    Draft draft = patient.object("consent", path);
    Consent.ProvisionComponent provision = resource.getProvision();
    draft.put(
        "given", provision.getType() == ConsentProvisionType.PERMIT, path + ".provision.type");
    draft.put("givenBy", resource.getPerformerFirstRep().getDisplay(), path + ".performer");
    draft.put(
        "recordedOn",
        Kind.day(resource.getDateTimeElement().getValueAsString()),
        path + ".dateTime");
    if (provision.getPeriod().hasEnd()) {
      String at = path + ".provision.period.end";
      draft.put("withdrawnOn", dayAfter(provision, at, reading), at);
    }
    draft.array("scope");
    for (int i = 0; i < provision.getCode().size(); i++) {
      String at = path + ".provision.code[" + i + "]";
      JsonNode scope = reading.value(SCOPE, provision.getCode().get(i), at);
      if (scope != null) {
        draft.add("scope", scope, at);
      }
    }
  }

  private static @Nullable String dayAfter(
      Consent.ProvisionComponent provision, String at, Reading reading) {
    JsonNode end = Kind.day(provision.getPeriod().getEndElement().getValueAsString());
    try {
      return end == null ? null : LocalDate.parse(end.stringValue()).plusDays(1).toString();
    } catch (DateTimeParseException e) {
      reading.fault("not-a-date", at, String.valueOf(end), "expected a whole date");
      return null;
    }
  }
}
