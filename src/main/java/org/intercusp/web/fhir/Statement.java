package org.intercusp.web.fhir;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Date;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementKind;
import org.hl7.fhir.r4.model.CapabilityStatement.RestfulCapabilityMode;
import org.hl7.fhir.r4.model.Enumerations.FHIRVersion;
import org.hl7.fhir.r4.model.Enumerations.PublicationStatus;
import org.intercusp.fhir.Canonicals;

/** The CapabilityStatement: it claims what this door does and nothing else. */
final class Statement {

  /** The day what is claimed last changed. */
  private static final LocalDate SINCE = LocalDate.of(2026, 11, 25);

  private final Canonicals canonicals;

  Statement(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  CapabilityStatement write() {
    CapabilityStatement statement = new CapabilityStatement();
    statement.setUrl(canonicals.base() + "/CapabilityStatement/service");
    statement.setName("IntercuspService");
    statement.setTitle("Intercusp service");
    statement.setStatus(PublicationStatus.ACTIVE);
    statement.setDate(Date.from(SINCE.atStartOfDay(ZoneOffset.UTC).toInstant()));
    statement.setKind(CapabilityStatementKind.INSTANCE);
    statement.setDescription(
        "Validates resources and Bundles. Treatments are submitted to /treatments as treatment"
            + " files, and delivered from there to records servers.");
    statement.getSoftware().setName("Intercusp").setVersion("0.1.0");
    statement.getImplementation().setDescription("Intercusp service");
    statement.setFhirVersion(FHIRVersion._4_0_1);
    statement.addFormat("application/fhir+json").addFormat("application/fhir+xml");
    statement
        .addRest()
        .setMode(RestfulCapabilityMode.SERVER)
        .addOperation()
        .setName("validate")
        .setDefinition(canonicals.base() + "/OperationDefinition/validate");
    return statement;
  }
}
