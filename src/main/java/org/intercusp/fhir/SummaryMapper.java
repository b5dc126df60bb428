package org.intercusp.fhir;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Composition.CompositionStatus;
import org.hl7.fhir.r4.model.Composition.SectionComponent;
import org.hl7.fhir.r4.model.Composition.SectionMode;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.finding.Caution;

/** The Composition of a document: each resource in a section, each section with narrative. */
final class SummaryMapper {

  private static final Map<Profile, DocumentGroup> SECTIONS = sections();

  private static Map<Profile, DocumentGroup> sections() {
    Map<Profile, DocumentGroup> sections = new LinkedHashMap<>();
    put(
        sections,
        DocumentGroup.DIAGNOSIS,
        Profile.MALOCCLUSION,
        Profile.TEETH_PRESENT,
        Profile.CEPHALOMETRIC_TRACING,
        Profile.STUDY_MODEL);
    put(sections, DocumentGroup.BITES, Profile.CONSTRUCTION_BITE);
    put(
        sections,
        DocumentGroup.APPLIANCES,
        Profile.APPLIANCE_PRESCRIPTION,
        Profile.LABORATORY_TASK,
        Profile.APPLIANCE,
        Profile.APPLIANCE_STATEMENT,
        Profile.APPLIANCE_FITTING,
        Profile.APPLIANCE_USE);
    put(
        sections,
        DocumentGroup.PLAN,
        Profile.TREATMENT_PLAN,
        Profile.STAGE_PLAN,
        Profile.STAGE_PRESCRIPTION,
        Profile.STAGE_GOAL);
    put(
        sections,
        DocumentGroup.REVIEWS,
        Profile.OVERJET,
        Profile.OVERBITE,
        Profile.OCCLUSAL_MEASUREMENT,
        Profile.CLINICAL_SIGN,
        Profile.REVIEW,
        Profile.NEXT_REVIEW,
        Profile.WEAR,
        Profile.REVIEW_PROCEDURE);
    put(sections, DocumentGroup.HARM, Profile.HARM, Profile.ADVERSE_EVENT);
    put(
        sections,
        DocumentGroup.OUTCOME,
        Profile.OUTCOME_SCORING,
        Profile.OCCLUSAL_FINDINGS,
        Profile.INDEX_SCORE,
        Profile.REPORTED_OUTCOME,
        Profile.TREATMENT_STATUS);
    put(sections, DocumentGroup.FINDINGS, Profile.FINDING);
    return sections;
  }

  private static void put(
      Map<Profile, DocumentGroup> sections, DocumentGroup group, Profile... profiles) {
    for (Profile profile : profiles) {
      sections.put(profile, group);
    }
  }

  private static final String TITLE = "Treatment with a functional appliance";

  Composition toFhir(Writing writing, LocalDate on) {
    Composition summary = new Composition();
    summary.setStatus(CompositionStatus.FINAL);
    summary.setType(Codes.CONSULT_NOTE.concept(writing.canonicals()));
    summary.setSubject(writing.patient());
    summary.setDateElement(Writing.day(on));
    summary.addAuthor(writing.clinician());
    summary.setTitle(TITLE);
    summary.setText(Narrative.of(TITLE, Caution.TEXT));
    summary.setCustodian(writing.clinic());
    Map<String, List<Writing.Entry>> bySection = new LinkedHashMap<>();
    SECTIONS.values().forEach(group -> bySection.put(group.title(), new ArrayList<>()));
    for (Writing.Entry entry : writing.entries()) {
      String title = group(entry, writing).title();
      bySection.computeIfAbsent(title, t -> new ArrayList<>()).add(entry);
    }
    bySection.forEach(
        (title, entries) -> {
          if (!entries.isEmpty()) {
            section(summary.addSection(), title, entries);
          }
        });
    return summary;
  }

  /** What a resource of a treatment is about. */
  DocumentGroup group(Writing.Entry entry, Writing writing) {
    boolean atDiagnosis =
        entry.resource() instanceof org.hl7.fhir.r4.model.Observation observation
            && !observation.hasEncounter();
    for (Map.Entry<Profile, DocumentGroup> section : SECTIONS.entrySet()) {
      if (entry.resource().getMeta().hasProfile(writing.canonicals().of(section.getKey()))) {
        DocumentGroup group = section.getValue();
        return atDiagnosis && group == DocumentGroup.REVIEWS ? DocumentGroup.DIAGNOSIS : group;
      }
    }
    return DocumentGroup.PEOPLE;
  }

  private static void section(SectionComponent section, String title, List<Writing.Entry> entries) {
    section.setTitle(title);
    section.setMode(SectionMode.SNAPSHOT);
    List<DomainResource> resources = entries.stream().map(Writing.Entry::resource).toList();
    section.setText(Narrative.of(resources));
    entries.forEach(entry -> section.addEntry(new Reference(entry.fullUrl())));
  }
}
