package org.intercusp.fhir;

import java.nio.charset.StandardCharsets;
import java.util.Date;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.AuditEvent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAction;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAgentComponent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventAgentNetworkType;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventEntityComponent;
import org.hl7.fhir.r4.model.AuditEvent.AuditEventOutcome;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.ResourceType;
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
    event.addEntity(entity(one));
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

  private AuditEventEntityComponent entity(AuditRecord one) {
    Thing thing = one.thing();
    AuditEventEntityComponent entity = new AuditEventEntityComponent();
    Part part = Part.of(thing);
    entity.setType(part.type()).setRole(part.role());
    String name =
        thing.version() == null ? thing.type() : thing.type() + " version " + thing.version();
    if (one.query() == null) {
      entity.setName(name);
    } else {
      // A name or a query, not both (FHIR R4, sev-1).
      entity.setDescription(name).setQuery(one.query().getBytes(StandardCharsets.UTF_8));
    }
    Reference what = new Reference();
    Identifier identifier = new Identifier();
    Clinic clinic = thing.clinic();
    if (clinic != null) {
      identifier.getAssigner().getIdentifier().setSystem(clinic.system()).setValue(clinic.value());
    }
    if (part.isResource()) {
      what.setReference(thing.type() + "/" + thing.id());
    } else if (thing.id() != null) {
      identifier.setSystem(idSystem(thing)).setValue(thing.id());
    }
    if (!identifier.isEmpty()) {
      what.setIdentifier(identifier);
    }
    return entity.setWhat(what);
  }

  /** The part a thing has in an event, by the codes of DICOM as FHIR takes them over. */
  private record Part(boolean isResource, Coding type, Coding role) {

    private static final Set<String> TYPES =
        Stream.of(ResourceType.values()).map(Enum::name).collect(Collectors.toSet());

    static Part of(Thing thing) {
      Coding object = new Coding(OBJECT, "2", "System Object");
      if (thing.id() == null) {
        return new Part(false, object, new Coding(ROLE, "24", "Query"));
      }
      if (!TYPES.contains(thing.type())) {
        return new Part(false, object, new Coding(ROLE, "3", "Report"));
      }
      return thing.type().equals("Patient")
          ? new Part(true, new Coding(OBJECT, "1", "Person"), new Coding(ROLE, "1", "Patient"))
          : new Part(true, object, new Coding(ROLE, "4", "Domain Resource"));
    }
  }

  /** Deliveries and proposals have the id of their treatment. */
  private String idSystem(Thing thing) {
    Clinic clinic = thing.clinic();
    return switch (thing.type()) {
      case Thing.SUBMISSION -> canonicals.base() + "/outcome-submission";
      case Thing.EXPORT -> canonicals.base() + "/export";
      case Thing.CLINIC -> clinic == null ? canonicals.base() + "/clinic" : clinic.system();
      default -> canonicals.base() + "/treatment";
    };
  }
}
