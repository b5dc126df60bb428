package org.intercusp.web.fhir;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Date;
import java.util.Objects;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementKind;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestComponent;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestResourceComponent;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestResourceSearchParamComponent;
import org.hl7.fhir.r4.model.CapabilityStatement.ConditionalReadStatus;
import org.hl7.fhir.r4.model.CapabilityStatement.ReferenceHandlingPolicy;
import org.hl7.fhir.r4.model.CapabilityStatement.ResourceVersionPolicy;
import org.hl7.fhir.r4.model.CapabilityStatement.RestfulCapabilityMode;
import org.hl7.fhir.r4.model.CapabilityStatement.SystemRestfulInteraction;
import org.hl7.fhir.r4.model.CapabilityStatement.TypeRestfulInteraction;
import org.hl7.fhir.r4.model.Enumerations.FHIRVersion;
import org.hl7.fhir.r4.model.Enumerations.PublicationStatus;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.Profile;
import org.intercusp.web.api.Program;
import org.springframework.stereotype.Component;

/**
 * The CapabilityStatement, written from the {@link Route}s this door answers at and the {@link
 * Offers} it has: it claims what the door does and nothing else.
 */
@Component
class Statement {

  /** The day what is claimed last changed. */
  private static final LocalDate SINCE = LocalDate.of(2026, 11, 28);

  /** Where the Bulk Data Access guide defines its operations. */
  private static final String BULK = "http://hl7.org/fhir/uv/bulkdata/OperationDefinition/";

  private final Canonicals canonicals;

  Statement(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  /** What this running service does. */
  CapabilityStatement instance(String base) {
    CapabilityStatement statement = common();
    statement.setKind(CapabilityStatementKind.INSTANCE);
    statement.setDescription("What this service does at its FHIR door.");
    statement.addInstantiates(canonicals.base() + "/CapabilityStatement/service");
    statement.getSoftware().setName("Intercusp").setVersion(Program.VERSION);
    statement.getImplementation().setDescription("Intercusp service").setUrl(base);
    return statement;
  }

  /** What every service of this version does, as the profiles publish it. */
  CapabilityStatement published() {
    CapabilityStatement statement = common();
    statement.setId("service");
    statement.setUrl(canonicals.base() + "/CapabilityStatement/service");
    statement.setVersion("0.1.0");
    statement.setName("IntercuspService");
    statement.setTitle("What the service does");
    statement.setExperimental(false);
    statement.setPublisher("The Intercusp project");
    statement.setKind(CapabilityStatementKind.REQUIREMENTS);
    statement.setDescription(
        "Read, version, history and search of the resources that stored treatments say, intake of"
            + " whole treatments, validation, the summary of a patient's treatment, export of all that"
            + " a caller reaches, and the trail of what was done.");
    return statement;
  }

  private CapabilityStatement common() {
    CapabilityStatement statement = new CapabilityStatement();
    statement.setStatus(PublicationStatus.ACTIVE);
    statement.setDate(Date.from(SINCE.atStartOfDay(ZoneOffset.UTC).toInstant()));
    statement.getDateElement().setPrecision(ca.uhn.fhir.model.api.TemporalPrecisionEnum.DAY);
    statement.setFhirVersion(FHIRVersion._4_0_1);
    statement.addFormat("application/fhir+json").addFormat("application/fhir+xml");
    CapabilityStatementRestComponent rest = statement.addRest();
    rest.setMode(RestfulCapabilityMode.SERVER);
    rest.setDocumentation(
        "A Bundle posted to the base is a whole treatment, told by its meta.profile; single"
            + " resources are not written. Parameters that are not known are left aside and named"
            + " in the answer, or refused with Prefer: handling=strict.");
    Offers.types().forEach(type -> resource(rest.addResource(), type));
    trail(rest.addResource());
    Route.interactions(Route.Subject.SYSTEM).stream()
        .filter(Objects::nonNull)
        .forEach(code -> rest.addInteraction().setCode(SystemRestfulInteraction.fromCode(code)));
    rest.addOperation().setName("validate").setDefinition(operation("validate"));
    rest.addOperation().setName("export").setDefinition(BULK + "export");
    return statement;
  }

  private void resource(CapabilityStatementRestResourceComponent resource, String type) {
    for (Profile profile : Offers.profiles(type)) {
      resource.addSupportedProfile(canonicals.of(profile));
    }
    common(resource, type, Route.Subject.TYPE);
    resource.setReadHistory(true);
    resource.setUpdateCreate(false);
    resource.setConditionalCreate(false);
    resource.setConditionalUpdate(false);
    resource.addReferencePolicy(ReferenceHandlingPolicy.LITERAL);
    if (type.equals("Patient")) {
      resource
          .addOperation()
          .setName("treatment-summary")
          .setDefinition(operation("treatment-summary"));
      resource.addOperation().setName("export").setDefinition(BULK + "patient-export");
    }
  }

  private void trail(CapabilityStatementRestResourceComponent resource) {
    resource.setDocumentation(
        "What was done here and what was refused, the newest first; written by the service alone"
            + " and never changed, so each has one version.");
    common(resource, Offers.TRAIL, Route.Subject.TRAIL);
    resource.setReadHistory(false);
  }

  private void common(
      CapabilityStatementRestResourceComponent resource, String type, Route.Subject subject) {
    resource.setType(type);
    Route.interactions(subject)
        .forEach(code -> resource.addInteraction().setCode(TypeRestfulInteraction.fromCode(code)));
    resource.setVersioning(ResourceVersionPolicy.VERSIONED);
    resource.setConditionalRead(ConditionalReadStatus.FULLSUPPORT);
    for (Offers.Search search : Offers.searches(type)) {
      CapabilityStatementRestResourceSearchParamComponent param =
          resource
              .addSearchParam()
              .setName(search.code())
              .setType(search.type())
              .setDocumentation(search.meaning());
      if (Offers.isOurs(type, search)) {
        param.setDefinition(canonicals.base() + "/SearchParameter/adverse-event-" + search.code());
      }
    }
    resource.addOperation().setName("validate").setDefinition(operation("validate"));
  }

  private String operation(String name) {
    return canonicals.base() + "/OperationDefinition/" + name;
  }
}
