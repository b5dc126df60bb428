package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.OperationOutcome.IssueSeverity;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.Test;
import org.springframework.test.context.TestPropertySource;
import tools.jackson.databind.json.JsonMapper;

/** A service under a base of its own takes, judges and tells everything under that. */
@TestPropertySource(properties = "intercusp.canonical-base=" + OtherBaseServiceTest.OWN)
class OtherBaseServiceTest extends FhirService {

  static final String OWN = "https://harbour-lane.example/fhir";

  private static final String JSON = "application/fhir+json";
  private static final String RESERVED = Canonicals.RESERVED.base();

  @Test
  void whatItSaysStandsUnderIt() throws Exception {
    HttpResponse<String> metadata = get("/metadata");
    CapabilityStatement statement = read(metadata, CapabilityStatement.class);
    assertThat(statement.getInstantiates().get(0).getValue())
        .isEqualTo(OWN + "/CapabilityStatement/service");
    HttpResponse<String> people = get("/Patient");
    HttpResponse<String> report = get("/CarePlan");
    for (HttpResponse<String> answer : List.of(metadata, people, report)) {
      assertThat(answer.body()).contains(OWN + "/StructureDefinition/").doesNotContain(RESERVED);
    }
    HttpResponse<String> filtered = post("/$validate", "text/plain", "x");
    assertThat(fault(filtered, 415).getIssueFirstRep().getDetails().getCodingFirstRep().getSystem())
        .isEqualTo(OWN + "/CodeSystem/conformance-issue");
  }

  @Test
  void whatItMapsItTakes() throws Exception {
    String own = new Canonicals(OWN).rebased(bundleOf("mixed-dentition"));
    OperationOutcome judged = fault(post("/$validate", JSON, own), 200);
    assertThat(judged.getIssue())
        .noneMatch(issue -> issue.getSeverity() == IssueSeverity.ERROR)
        .noneMatch(issue -> issue.getDetails().getText().contains(OWN));

    Bundle taken = bundle(post("", JSON, own));

    assertThat(taken.getEntry().get(0).getResponse().getStatus()).isEqualTo("201 Created");
    JsonMapper json = new JsonMapper();
    assertThat(json.readTree(get("/treatments/HL-2026-003").body()))
        .isEqualTo(json.readTree(sample("mixed-dentition")));
    assertThat(json.readTree(get("/treatments/HL-2026-003/bundle").body()))
        .isEqualTo(json.readTree(own));
  }

  @Test
  void theReservedBaseIsNotTaken() throws Exception {
    assertThat(fault(post("", JSON, bundleOf("mixed-dentition")), 422).getIssueFirstRep())
        .matches(issue -> issue.getDetails().getText().contains(OWN));
  }

  private static String bundleOf(String sample) throws Exception {
    return Files.readString(Path.of("sample-bundles", sample + ".bundle.json"));
  }
}
