package org.intercusp.fhir;

import java.util.Date;
import java.util.Locale;
import org.hl7.fhir.r4.model.AuditEvent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAction;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAgentComponent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAgentNetworkType;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventEntityComponent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventOutcome;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.InstantType;
import org.intercusp.access.Clinic;
import org.intercusp.audit.AuditRecord;
import org.intercusp.audit.Thing;

/**
 * A record of the trail as an AuditEvent, in the shape of the field's basic audit pattern: an event
 * type and subtype, who, from where, what. There is no way back: AuditEvents of others are not
 * taken.
 */
public final class AuditMapper {

  private static final String TYPE = "http://terminology.hl7.org/CodeSystem/audit-event-type";
  private static final String RESTFUL = "http://hl7.org/fhir/restful-interaction";
  private static final String OBJECT = "http://terminology.hl7.org/CodeSystem/audit-entity-type";
  private static final String ROLE = "http://terminology.hl7.org/CodeSystem/object-role";
  private static final String DICOM = "http://dicom.nema.org/resources/ontology/DCM";

  private final Canonicals canonicals;

  public AuditMapper(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  /** The AuditEvent of a record. */
  public AuditEvent toFhir(AuditRecord one) {
    AuditEvent event = new AuditEvent();
    event.setId(one.id());
    event.setType(new Coding(TYPE, "rest", "RESTful Operation"));
    event.addSubtype(
        one.deed().isRestful()
            ? new Coding(RESTFUL, one.deed().code(), null)
            : new Coding(canonicals.base() + "/CodeSystem/deed", one.deed().code(), null));
    event.setAction(AuditEventAction.fromCode(String.valueOf(one.deed().action())));
    // A record never changes.
    event.getMeta().setVersionId("1").setLastUpdated(Date.from(one.recordedAt()));
    event.setRecordedElement(new InstantType(Date.from(one.recordedAt())));
    event.setOutcome(AuditEventOutcome.fromCode(one.outcome().code()));
    if (!one.detail().isEmpty()) {
      event.setOutcomeDesc(one.detail());
    }
    agents(one, event);
    event.getSource().getObserver().setDisplay("Intercusp");
    event.addEntity(entity(one.thing()));
    if (!one.request().isEmpty()) {
      event
          .addEntity()
          .setType(new Coding(OBJECT, "4", "Other"))
          .setName("X-Request-Id")
          .getWhat()
          .setIdentifier(new Identifier().setValue(one.request()));
    }
    return event;
  }

  private static void agents(AuditRecord one, AuditEvent event) {
    AuditEventAgentComponent who =
        event.addAgent().setRequestor(true).setAltId(one.agent()).setName(one.agentName());
    boolean machine = one.agentKind().equals("program") || one.agentKind().equals("worker");
    who.getType()
        .addCoding(
            machine
                ? new Coding(DICOM, "110150", "Application")
                : new Coding(
                    "http://terminology.hl7.org/CodeSystem/v3-ParticipationType",
                    "IRCP",
                    "information recipient"));
    who.getWho().setDisplay(one.agentKind().toLowerCase(Locale.ROOT));
    if (one.network() != null) {
      who.getNetwork().setAddress(one.network()).setType(AuditEventAgentNetworkType._2);
    }
    String recipient = one.thing().recipient();
    if (recipient != null) {
      AuditEventAgentComponent to = event.addAgent().setRequestor(false).setName(recipient);
      to.getType().addCoding(new Coding(DICOM, "110152", "Destination Role ID"));
    }
  }

  private AuditEventEntityComponent entity(Thing thing) {
    AuditEventEntityComponent entity = new AuditEventEntityComponent();
    entity.setType(new Coding(OBJECT, "2", "System Object"));
    entity.setRole(
        new Coding(ROLE, thing.id() == null ? "24" : "3", thing.id() == null ? "Query" : "Report"));
    entity.setName(
        thing.version() == null ? thing.type() : thing.type() + " version " + thing.version());
    Identifier identifier = new Identifier();
    Clinic clinic = thing.clinic();
    if (clinic != null) {
      identifier.getAssigner().getIdentifier().setSystem(clinic.system()).setValue(clinic.value());
    }
    if (thing.id() != null) {
      identifier.setSystem(canonicals.base() + idSystem(thing)).setValue(thing.id());
    }
    if (!identifier.isEmpty()) {
      entity.getWhat().setIdentifier(identifier);
    }
    return entity;
  }

  private static String idSystem(Thing thing) {
    return thing.type().equals(Thing.SUBMISSION) ? "/outcome-submission" : "/treatment";
  }
}
