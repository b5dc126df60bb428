package org.intercusp.fhir.version;

import ca.uhn.fhir.parser.DataFormatException;
import java.util.Map;
import java.util.function.Consumer;
import org.hl7.fhir.convertors.advisors.impl.BaseAdvisor_40_50;
import org.hl7.fhir.convertors.context.ConversionContext40_50;
import org.hl7.fhir.convertors.conv40_50.VersionConvertor_40_50;
import org.hl7.fhir.convertors.factory.VersionConvertorFactory_40_50;
import org.hl7.fhir.r4.model.AdverseEvent;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r5.model.DataType;

/**
 * Repair: AdverseEvent, which the converter refuses both ways. What a treatment says of one is
 * written by hand; what it never says (causality, history, documents, participants, studies) is
 * refused rather than lost.
 */
final class AdverseEvents {

  private static final String TYPE = "AdverseEvent";
  private static final String SEVERITY = "AdverseEvent.severity";
  private static final String SERIOUSNESS =
      "http://terminology.hl7.org/CodeSystem/adverse-event-seriousness";

  /** The code system's own codes, which R4 wrote with capitals, by what R4 writes. */
  private static final Map<String, String> LATER =
      Map.of("Serious", "serious", "Non-serious", "non-serious");

  private static final Map<String, String> EARLIER =
      Map.of("serious", "Serious", "non-serious", "Non-serious");

  private final Carried carried;

  AdverseEvents(Carried carried) {
    this.carried = carried;
  }

  org.hl7.fhir.r5.model.AdverseEvent up(AdverseEvent from) {
    refuse(
        from.hasContributor()
            || from.hasSubjectMedicalHistory()
            || from.hasReferenceDocument()
            || from.hasStudy()
            || from.getSuspectEntity().stream().anyMatch(one -> one.hasCausality()));
    var to = new org.hl7.fhir.r5.model.AdverseEvent();
    shell(convertor -> convertor.copyDomainResource(from, to));
    if (from.hasIdentifier()) {
      to.addIdentifier((org.hl7.fhir.r5.model.Identifier) up(from.getIdentifier()));
    }
    to.setStatus(org.hl7.fhir.r5.model.AdverseEvent.AdverseEventStatus.COMPLETED);
    if (from.hasActuality()) {
      to.setActuality(
          org.hl7.fhir.r5.model.AdverseEvent.AdverseEventActuality.fromCode(
              from.getActuality().toCode()));
    }
    said(from, to);
    return to;
  }

  private void said(AdverseEvent from, org.hl7.fhir.r5.model.AdverseEvent to) {
    from.getCategory().forEach(category -> to.addCategory(concept(category)));
    to.setCode(concept(from.getEvent()));
    to.setSubject(reference(from.getSubject()));
    to.setEncounter(reference(from.getEncounter()));
    to.setOccurrence(up(from.getDateElement()));
    to.setDetectedElement((org.hl7.fhir.r5.model.DateTimeType) up(from.getDetectedElement()));
    to.setRecordedDateElement(
        (org.hl7.fhir.r5.model.DateTimeType) up(from.getRecordedDateElement()));
    from.getResultingCondition().forEach(effect -> to.addResultingEffect(reference(effect)));
    to.setLocation(reference(from.getLocation()));
    to.setSeriousness(concept(recoded(from.getSeriousness(), LATER)));
    if (from.hasSeverity()) {
      carried.up(SEVERITY, from.getSeverity(), to);
    }
    if (from.hasOutcome()) {
      to.addOutcome(concept(from.getOutcome()));
    }
    to.setRecorder(reference(from.getRecorder()));
    from.getSuspectEntity()
        .forEach(one -> to.addSuspectEntity().setInstance(up(one.getInstance())));
  }

  AdverseEvent down(org.hl7.fhir.r5.model.AdverseEvent from) {
    AdverseEvent to = new AdverseEvent();
    shell(convertor -> convertor.copyDomainResource(from, to));
    refuse(
        from.hasParticipant()
            || from.hasStudy()
            || from.hasExpectedInResearchStudy()
            || from.hasContributingFactor()
            || from.hasPreventiveAction()
            || from.hasMitigatingAction()
            || from.hasSupportingInfo()
            || from.hasNote()
            || from.getSuspectEntity().stream().anyMatch(one -> one.hasCausality()));
    if (from.hasIdentifier()) {
      to.setIdentifier((Identifier) down(from.getIdentifierFirstRep()));
    }
    if (from.hasActuality()) {
      to.setActuality(AdverseEvent.AdverseEventActuality.fromCode(from.getActuality().toCode()));
    }
    said(from, to);
    return to;
  }

  private void said(org.hl7.fhir.r5.model.AdverseEvent from, AdverseEvent to) {
    from.getCategory().forEach(category -> to.addCategory((CodeableConcept) down(category)));
    to.setEvent((CodeableConcept) down(from.getCode()));
    to.setSubject((Reference) down(from.getSubject()));
    to.setEncounter((Reference) down(from.getEncounter()));
    if (down(from.getOccurrence()) instanceof DateTimeType day) {
      to.setDateElement(day);
    } else if (from.hasOccurrence()) {
      carried.beyond("AdverseEvent.occurrence", down(from.getOccurrence()), to);
    }
    to.setDetectedElement((DateTimeType) down(from.getDetectedElement()));
    to.setRecordedDateElement((DateTimeType) down(from.getRecordedDateElement()));
    from.getResultingEffect().forEach(effect -> to.addResultingCondition((Reference) down(effect)));
    to.setLocation((Reference) down(from.getLocation()));
    to.setSeriousness(recoded((CodeableConcept) down(from.getSeriousness()), EARLIER));
    carried
        .down(SEVERITY, to.getExtension())
        .forEach(severity -> to.setSeverity((CodeableConcept) severity));
    if (from.hasOutcome()) {
      to.setOutcome((CodeableConcept) down(from.getOutcomeFirstRep()));
    }
    to.setRecorder((Reference) down(from.getRecorder()));
    from.getSuspectEntity().forEach(one -> suspect(down(one.getInstance()), to));
  }

  private void suspect(org.hl7.fhir.r4.model.Type instance, AdverseEvent to) {
    if (instance instanceof Reference suspect) {
      to.addSuspectEntity().setInstance(suspect);
    } else {
      carried.beyond("AdverseEvent.suspectEntity.instance", instance, to.addSuspectEntity());
    }
  }

  private static CodeableConcept recoded(CodeableConcept from, Map<String, String> codes) {
    CodeableConcept to = from == null ? new CodeableConcept() : from.copy();
    for (Coding coding : to.getCoding()) {
      if (SERIOUSNESS.equals(coding.getSystem()) && coding.hasCode()) {
        coding.setCode(codes.getOrDefault(coding.getCode(), coding.getCode()));
      }
    }
    return to;
  }

  private static void shell(Consumer<VersionConvertor_40_50> copy) {
    VersionConvertor_40_50 convertor = new VersionConvertor_40_50(new BaseAdvisor_40_50());
    ConversionContext40_50.INSTANCE.init(convertor, TYPE);
    try {
      copy.accept(convertor);
    } finally {
      ConversionContext40_50.INSTANCE.close(TYPE);
    }
  }

  private static void refuse(boolean beyond) {
    if (beyond) {
      throw new DataFormatException(
          TYPE
              + " says more than can be converted between R4 and R5 (causality, participants, ...)");
    }
  }

  private static DataType up(org.hl7.fhir.r4.model.Type value) {
    return VersionConvertorFactory_40_50.convertType(value);
  }

  private static org.hl7.fhir.r4.model.Type down(DataType value) {
    return VersionConvertorFactory_40_50.convertType(value);
  }

  private static org.hl7.fhir.r5.model.CodeableConcept concept(CodeableConcept value) {
    return (org.hl7.fhir.r5.model.CodeableConcept) up(value);
  }

  private static org.hl7.fhir.r5.model.Reference reference(Reference value) {
    return (org.hl7.fhir.r5.model.Reference) up(value);
  }
}
