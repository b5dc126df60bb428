package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.IncisorClass;
import org.jspecify.annotations.Nullable;

/** The diagnosis: a Condition for the malocclusion, and an Observation for each thing seen. */
final class DiagnosisMapper {

  private static final Kind<IncisorClass> INCISORS = Kind.coded(LocalSystem.INCISOR_CLASS);

  private static final List<Panel<Diagnosis>> SEEN =
      List.of(
          new Panel<Diagnosis>(Role.OVERJET, Codes.OVERJET)
              .value("overjet", Kind.quantity(Unit.MILLIMETRE), Diagnosis::overjet),
          new Panel<Diagnosis>(Role.OVERBITE, Codes.OVERBITE)
              .value("overbite", Kind.quantity(Unit.MILLIMETRE), Diagnosis::overbite),
          new Panel<Diagnosis>(Role.OVERBITE_COVER, Codes.OVERBITE_COVER)
              .value("overbiteCover", Kind.quantity(Unit.SHARE), Diagnosis::overbiteCover),
          new Panel<Diagnosis>(Role.MOLAR_RELATION, Codes.MOLAR_RELATION)
              .sides(
                  "molarRelation",
                  Codes.MOLAR_RELATION_RIGHT,
                  Codes.MOLAR_RELATION_LEFT,
                  Diagnosis::molarRelation),
          new Panel<Diagnosis>(Role.CROWDING, Codes.CROWDING)
              .arches("crowding", Codes.CROWDING_UPPER, Codes.CROWDING_LOWER, Diagnosis::crowding),
          new Panel<Diagnosis>(Role.LIPS, Codes.LIPS)
              .value("lips", Kind.coded(LocalSystem.LIPS), Diagnosis::lips),
          new Panel<Diagnosis>(Role.GROWTH_STAGE, Codes.GROWTH_STAGE)
              .value("growthStage", Kind.coded(LocalSystem.GROWTH_STAGE), Diagnosis::growthStage),
          new Panel<Diagnosis>(Role.JOINT_SIGNS, Codes.JOINT_SIGNS)
              .jointSigns(Diagnosis::jointSigns),
          new Panel<Diagnosis>(Role.HYGIENE, Codes.HYGIENE)
              .value("hygiene", Kind.coded(LocalSystem.HYGIENE), Diagnosis::hygiene),
          new Panel<Diagnosis>(Role.ACTIVE_CARIES, Codes.ACTIVE_CARIES)
              .value("activeCaries", Kind.bool(), Diagnosis::activeCaries),
          new Panel<Diagnosis>(Role.TEETH_PRESENT, Codes.TEETH_PRESENT)
              .teeth("teethPresent", Codes.TOOTH_PRESENT, Diagnosis::teethPresent));

  void toFhir(Writing writing) {
    Diagnosis diagnosis = writing.treatment().diagnosis();
    Condition condition = new Condition();
    condition.setClinicalStatus(Codes.hl7Concept("condition-clinical", "active", "Active"));
    condition.setVerificationStatus(
        Codes.hl7Concept("condition-ver-status", "confirmed", "Confirmed"));
    condition.addCategory(
        Codes.hl7Concept("condition-category", "problem-list-item", "Problem List Item"));
    CodeableConcept code =
        (CodeableConcept) INCISORS.out().apply(diagnosis.incisorClass(), writing.canonicals());
    code.addCoding(Codes.MALOCCLUSION.coding(writing.canonicals()));
    condition.setCode(
        code.setText("Malocclusion, incisor class " + diagnosis.incisorClass().code()));
    condition.setSubject(writing.patient());
    condition.setRecordedDateElement(Writing.day(diagnosis.assessedOn()));
    condition.setAsserter(writing.clinician());
    writing.add(condition, Role.DIAGNOSIS);
    for (Panel<Diagnosis> panel : SEEN) {
      Observation seen = writing.observe(panel, diagnosis, diagnosis.assessedOn());
      if (seen != null) {
        condition.addEvidence().addDetail(writing.to("Observation", panel.role()));
      }
    }
  }

  void fromFhir(Draft root, Reading reading) {
    Condition condition = condition(reading);
    if (condition == null) {
      return;
    }
    String path = reading.path(condition);
    Draft draft = root.object("diagnosis", path);
    draft.put(
        "assessedOn",
        Kind.day(condition.getRecordedDateElement().getValueAsString()),
        path + ".recordedDate");
    draft.put(
        "incisorClass",
        reading.value(INCISORS, condition.getCode(), path + ".code"),
        path + ".code");
    for (Panel<Diagnosis> panel : SEEN) {
      Observation seen = seen(condition, panel.code(), reading);
      if (seen != null) {
        panel.read(seen, draft, reading);
      }
    }
  }

  private static @Nullable Condition condition(Reading reading) {
    List<Condition> conditions = reading.all(Condition.class);
    for (Condition condition : conditions) {
      boolean ours =
          Kind.codeIn(condition.getCode(), reading.canonicals().of(LocalSystem.INCISOR_CLASS))
              != null;
      if (ours) {
        return condition;
      }
    }
    return conditions.stream()
        .filter(condition -> reading.is(Codes.MALOCCLUSION, condition.getCode()))
        .findFirst()
        .orElse(null);
  }

  // Evidence says which Observation belongs to the diagnosis; else one outside any visit.
  private static @Nullable Observation seen(Condition condition, Concept code, Reading reading) {
    List<Observation> candidates = reading.observations(code);
    for (Observation candidate : candidates) {
      boolean evidence =
          condition.getEvidence().stream()
              .flatMap(e -> e.getDetail().stream())
              .anyMatch(detail -> reading.leadsTo(detail, candidate));
      if (evidence) {
        return candidate;
      }
    }
    return candidates.stream().filter(o -> !o.hasEncounter()).findFirst().orElse(null);
  }
}
