package org.intercusp.web.browser;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.rest.client.api.IGenericClient;
import ca.uhn.fhir.rest.client.api.ServerValidationModeEnum;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.exchange.RecordsServers;
import org.intercusp.web.browser.Visit.Look;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * People at a real records server correct a birth date and measure an overjet; the running service
 * finds both by asking, and a person decides on them in the browser.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ChangedElsewhereIT {

  private static final JsonMapper JSON = new JsonMapper();

  private Rig rig;
  private IGenericClient hospital;

  @BeforeAll
  void start(@TempDir Path data) {
    rig = Rig.start(data, "--intercusp.recipients.hospital.poll-every=1s");
    FhirContext context = FhirContext.forR4Cached();
    context.getRestfulClientFactory().setServerValidationMode(ServerValidationModeEnum.NEVER);
    context.getRestfulClientFactory().setSocketTimeout(60_000);
    hospital = context.newRestfulGenericClient(RecordsServers.PLAIN.baseUrl().toString());
  }

  @AfterAll
  void stop() {
    if (rig != null) {
      rig.close();
    }
  }

  private static void eventually(String what, Callable<Boolean> is) throws Exception {
    long end = System.nanoTime() + 120_000_000_000L;
    while (!is.call()) {
      assertThat(System.nanoTime()).as(what).isLessThan(end);
      Thread.sleep(300);
    }
  }

  private JsonNode proposals(String id) throws Exception {
    return JSON.readTree(rig.get("/treatments/" + id + "/proposals"));
  }

  private void delivered(String id) throws Exception {
    assertThat(rig.post("/treatments/" + id + "/deliveries", "{\"to\":\"hospital\"}").statusCode())
        .isEqualTo(202);
    eventually(
        "delivered",
        () ->
            JSON.readTree(rig.get("/treatments/" + id + "/deliveries"))
                .get(0)
                .path("state")
                .asString()
                .equals("delivered"));
  }

  @Test
  void whatTheHospitalChangesIsDecidedOnInTheBrowser() throws Exception {
    String mark = UUID.randomUUID().toString().substring(0, 8);
    String id = "IT-back-" + mark;
    String number = "P-" + mark;
    String file = Rig.sample("mixed-dentition", id).replace("P-10533", number);
    assertThat(rig.post("/treatments", file).statusCode()).isEqualTo(201);
    delivered(id);
    Patient patient =
        (Patient)
            hospital
                .search()
                .forResource(Patient.class)
                .where(Patient.IDENTIFIER.exactly().code(number))
                .returnBundle(Bundle.class)
                .execute()
                .getEntryFirstRep()
                .getResource();
    String mine = patient.getIdElement().getIdPart();
    Thread.sleep(3_000);
    assertThat(proposals(id)).as("our own echo").isEmpty();

    patient.setBirthDateElement(new DateType("2015-09-03"));
    hospital.update().resource(patient).execute();
    hospital.create().resource(overjet(mine)).execute();
    eventually("both are proposed", () -> proposals(id).size() == 2);

    try (Visit visit = rig.visit(Look.PHONE_LIGHT).open("/?show=proposal")) {
      Page page = visit.page();
      assertThat(page.locator(".worklist")).containsText("changed elsewhere");
      visit.open("/treatments/" + id);
      page.getByText("2 things were changed or found at recipients").click();
      assertThat(page.locator("#proposals")).containsText("2015-09-03");
      assertThat(page.locator("#proposals")).containsText("Dr. Brandt");
      visit.picture("proposals").accessible();
      Locator born =
          page.locator("section.panel", new Page.LocatorOptions().setHasText("2015-09-03"));
      born.locator("button.main").click();
      assertThat(page.getByRole(AriaRole.STATUS).first()).containsText("It is accepted");
      assertThat(page.locator("#proposals")).containsText("Harbour General has a new review");
      assertThat(page.locator("#proposals")).not().containsText("performer");
      page.getByLabel("Overbite, mm").fill("3,5 mm");
      page.getByLabel("Molar relation right, mm").fill("2");
      page.getByLabel("Molar relation left, mm").fill("2");
      page.locator("#proposals button.main").click();
      assertThat(page.locator("#proposals")).containsText("Not accepted");
      assertThat(page.getByLabel("Overbite, mm")).hasValue("3,5 mm");
      visit.picture("proposals-not-accepted").accessible();
      page.getByLabel("Overbite, mm").fill("3,5");
      page.getByLabel("Molar relation right, mm").fill("2");
      page.getByLabel("Molar relation left, mm").fill("2");
      page.locator("#proposals button.main").click();
      assertThat(page.locator("#proposals")).containsText("Nothing is waiting for a decision");
      visit.picture("proposals-decided").accessible();
    }
    JsonNode now = JSON.readTree(rig.get("/treatments/" + id));
    assertThat(now.at("/patient/birthDate").asString()).isEqualTo("2015-09-03");
    assertThat(now.at("/reviews/2/overjet").decimalValue()).isEqualByComparingTo("5.5");
    assertThat(now.at("/reviews/2/overbite").decimalValue()).isEqualByComparingTo("3.5");
    delivered(id);
    Thread.sleep(3_000);
    assertThat(proposals(id)).allMatch(one -> one.path("state").asString().equals("accepted"));
  }

  private static Observation overjet(String patient) {
    Observation seen = new Observation();
    seen.setStatus(Observation.ObservationStatus.FINAL);
    seen.getCode().addCoding().setSystem("http://loinc.org").setCode("32916-9");
    seen.setSubject(new Reference("Patient/" + patient));
    seen.setEffective(new DateTimeType("2026-06-15"));
    seen.addPerformer(new Reference().setDisplay("Dr. Brandt"));
    seen.setValue(
        new Quantity()
            .setValue(new BigDecimal("5.5"))
            .setSystem("http://unitsofmeasure.org")
            .setCode("mm"));
    return seen;
  }
}
