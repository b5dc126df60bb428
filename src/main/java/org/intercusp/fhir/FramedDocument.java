package org.intercusp.fhir;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Composition.CompositionStatus;
import org.hl7.fhir.r4.model.Composition.SectionComponent;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Narrative;
import org.hl7.fhir.r4.model.Narrative.NarrativeStatus;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.fhir.DocumentFrame.Holds;
import org.intercusp.treatment.Identifier;

/**
 * A document Bundle whose words come from elsewhere: a Composition first, then what of the record
 * its reader may have. It is dated by the day it speaks of, never by a clock.
 */
final class FramedDocument {

  private static final String REST = "Record";

  private static final String REST_WORDS =
      "<div xmlns=\"http://www.w3.org/1999/xhtml\"><p>What else the record holds, for machines."
          + "</p></div>";

  private final Writing writing;
  private final DocumentFrame frame;
  private final LocalDate on;
  private final SummaryMapper groups = new SummaryMapper();

  FramedDocument(Writing writing, DocumentFrame frame, LocalDate on) {
    this.writing = writing;
    this.frame = frame;
    this.on = on;
  }

  Bundle bundle() {
    Identifier identifier = identifier();
    Bundle bundle = new Bundle();
    bundle.setType(BundleType.DOCUMENT);
    bundle.setTimestampElement(new InstantType(on + "T00:00:00Z"));
    List<Writing.Entry> held = held();
    Composition composition = composition(identifier, held);
    bundle
        .addEntry()
        .setFullUrl(Identity.urn(composition.fhirType(), identifier))
        .setResource(composition);
    if (frame.holds() == Holds.RECORD) {
      bundle.getMeta().addProfile(writing.canonicals().of(Profile.TREATMENT_DOCUMENT));
      composition.getMeta().addProfile(writing.canonicals().of(Profile.SUMMARY));
    }
    held.forEach(
        entry -> bundle.addEntry().setFullUrl(entry.fullUrl()).setResource(entry.resource()));
    DocumentInstance.identify(bundle, identifier);
    return bundle;
  }

  private Identifier identifier() {
    return writing.identity().identifier(Role.SUMMARY, frame.name());
  }

  private List<Writing.Entry> held() {
    Set<String> people =
        switch (frame.holds()) {
          case RECORD -> Set.of();
          case PEOPLE ->
              Set.of(
                  writing.patient().getReference(),
                  writing.clinician().getReference(),
                  writing.clinic().getReference());
          case PRESCRIBER ->
              Set.of(writing.clinician().getReference(), writing.clinic().getReference());
        };
    return writing.entries().stream()
        .filter(entry -> frame.holds() == Holds.RECORD || people.contains(entry.fullUrl()))
        .toList();
  }

  private Composition composition(Identifier identifier, List<Writing.Entry> held) {
    Composition composition = new Composition();
    composition.setLanguage(frame.language());
    composition.setIdentifier((org.hl7.fhir.r4.model.Identifier) Writing.fhir(identifier));
    composition.setStatus(CompositionStatus.FINAL);
    composition.setType(
        frame.holds() == Holds.RECORD
            ? Codes.CONSULT_NOTE.concept(writing.canonicals())
            : new CodeableConcept().setText(frame.title()));
    composition.setSubject(subject());
    composition.setDateElement(Writing.day(on));
    composition.addAuthor(writing.clinician());
    composition.setTitle(frame.title());
    composition.setCustodian(writing.clinic());
    composition.setText(narrative(frame.narrative()));
    List<Writing.Entry> rest = new ArrayList<>(held);
    for (DocumentFrame.Section section : frame.sections()) {
      SectionComponent to = section(composition, section.title(), section.narrative());
      rest.removeIf(entry -> frame.holds() == Holds.RECORD && placed(entry, section, to));
    }
    if (frame.holds() == Holds.RECORD && !rest.isEmpty()) {
      SectionComponent to = section(composition, REST, REST_WORDS);
      rest.forEach(entry -> to.addEntry(new Reference(entry.fullUrl())));
    }
    return composition;
  }

  private Reference subject() {
    return frame.holds() == Holds.PRESCRIBER
        ? new Reference()
            .setType("Patient")
            .setIdentifier(
                (org.hl7.fhir.r4.model.Identifier)
                    Writing.fhir(writing.treatment().patient().identifier()))
        : writing.patient();
  }

  private boolean placed(Writing.Entry entry, DocumentFrame.Section section, SectionComponent to) {
    boolean belongs = section.groups().contains(groups.group(entry, writing));
    if (belongs) {
      to.addEntry(new Reference(entry.fullUrl()));
    }
    return belongs;
  }

  private static SectionComponent section(Composition composition, String title, String xhtml) {
    return composition.addSection().setTitle(title).setText(narrative(xhtml));
  }

  private static Narrative narrative(String xhtml) {
    Narrative narrative = new Narrative();
    narrative.setStatus(NarrativeStatus.GENERATED);
    narrative.setDivAsString(xhtml);
    return narrative;
  }
}
