package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.DetectedIssue.DetectedIssueMitigationComponent;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.hl7.fhir.r4.model.Practitioner;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Acceptance;
import tools.jackson.databind.JsonNode;

/**
 * An acceptance as mitigation of the issue it answers. The numbers it was given for are a contained
 * Observation among the evidence: they have no life outside it.
 */
final class AcceptanceMapper {

  private static final String VALUES_ID = "accepted-values";
  private static final Kind<Decimal> NUMBER = Kind.decimal(Unit.SHARE);

  void toFhir(Acceptance acceptance, DetectedIssue issue, Writing writing) {
    issue.setIdentified(Writing.day(acceptance.on()));
    DetectedIssueMitigationComponent mitigation = issue.addMitigation();
    CodeableConcept action = Codes.ACCEPTED.concept(writing.canonicals());
    mitigation.setAction(action.setText(acceptance.reason()));
    mitigation.setDateElement(Writing.day(acceptance.on()));
    Reference by = Names.logical(acceptance.by().identifier());
    by.setDisplay(acceptance.by().family());
    if (acceptance.by().identifier().equals(writing.treatment().clinician().identifier())) {
      by.setReference(writing.clinician().getReference());
    }
    mitigation.setAuthor(by);
    if (acceptance.values().isEmpty()) {
      return;
    }
    Observation values = new Observation();
    values.setId(VALUES_ID);
    values.setStatus(Observation.ObservationStatus.FINAL);
    values.setCode(Codes.ACCEPTED_VALUES.concept(writing.canonicals()));
    acceptance
        .values()
        .forEach(
            (name, number) ->
                values
                    .addComponent()
                    .setCode(new CodeableConcept().setText(name))
                    .setValue(NUMBER.out().apply(number, writing.canonicals())));
    issue.addContained(values);
    issue.addEvidence().addDetail(new Reference("#" + VALUES_ID));
  }

  void fromFhir(DetectedIssue issue, Draft root, Reading reading) {
    for (int i = 0; i < issue.getMitigation().size(); i++) {
      DetectedIssueMitigationComponent mitigation = issue.getMitigation().get(i);
      if (reading.is(Codes.ACCEPTED, mitigation.getAction())) {
        String path = reading.path(issue);
        Draft draft = root.element("acceptances", path + ".mitigation[" + i + "]");
        subject(issue, draft, path, reading);
        answer(mitigation, draft, path + ".mitigation[" + i + "]", reading);
        values(issue, draft.object("values", path), path, reading);
      }
    }
  }

  private static void subject(DetectedIssue issue, Draft draft, String path, Reading reading) {
    String rules = reading.canonicals().of(LocalSystem.RULE);
    draft.put("finding", Kind.codeIn(issue.getCode(), rules), path + ".code");
    List<String> names = BundleIndex.name(issue).map(Identity.Name::elements).orElse(List.of());
    String subject = names.size() > 1 ? names.get(1) : null;
    if (subject == null && issue.hasImplicated()) {
      subject = reading.idOf(issue.getImplicatedFirstRep());
    }
    draft.put("subject", subject, path + ".implicated[0]");
  }

  private static void answer(
      DetectedIssueMitigationComponent mitigation, Draft draft, String path, Reading reading) {
    draft.put("reason", mitigation.getAction().getText(), path + ".action.text");
    draft.put("on", Kind.day(mitigation.getDateElement().getValueAsString()), path + ".date");
    String at = path + ".author";
    Draft by = draft.object("by", at);
    Reference author = mitigation.getAuthor();
    Practitioner known = reading.resolve(author, Practitioner.class);
    if (author.hasIdentifier()) {
      Names.identifier(author.getIdentifier(), by, at + ".identifier");
    } else if (known != null) {
      Names.identifier(known.getIdentifier(), by, reading.path(known));
    }
    String family = author.getDisplay();
    if (family == null && known != null) {
      family = known.getNameFirstRep().getFamily();
    }
    by.put("family", family, at + ".display");
  }

  private static void values(DetectedIssue issue, Draft values, String path, Reading reading) {
    for (int i = 0; i < issue.getContained().size(); i++) {
      if (issue.getContained().get(i) instanceof Observation contained
          && reading.is(Codes.ACCEPTED_VALUES, contained.getCode())) {
        List<ObservationComponentComponent> parts = contained.getComponent();
        for (int j = 0; j < parts.size(); j++) {
          String at = path + ".contained[" + i + "].component[" + j + "].value";
          ObservationComponentComponent part = parts.get(j);
          JsonNode number = reading.value(NUMBER, part.hasValue() ? part.getValue() : null, at);
          if (part.getCode().hasText()) {
            values.put(part.getCode().getText(), number, at);
          }
        }
      }
    }
  }
}
