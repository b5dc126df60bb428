package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Who logs in submits outcomes for their own clinic, and touches nobody else's. */
class RegistryReachTest extends GuardedServiceBase {

  @Test
  void nobodyReplacesOrWithdrawsWhatAnotherSubmitted() throws Exception {
    String ofB = record("quay-side", "case", 3);
    assertThat(loaded(Program.B_FULL, ofB).at("/counts/new").asInt()).isEqualTo(1);

    JsonNode replaced = loaded(Program.A_FULL, record("quay-side", "case", 4));
    assertThat(replaced.at("/counts/refused").asInt()).isEqualTo(1);
    assertThat(replaced.at("/refusals/0/code").asString()).isEqualTo("record-submitter");
    JsonNode withdrawn = loaded(Program.A_FULL, record("quay-side", "withdrawal", 0));
    assertThat(withdrawn.at("/counts/refused").asInt()).isEqualTo(1);
    // In their own name throughout, but about a patient of the other clinic.
    JsonNode own = loaded(Program.A_FULL, record("harbour-lane", "harbour-lane", "withdrawal", 0));
    assertThat(own.at("/counts/withdrawals").asInt()).isEqualTo(1);

    assertThat(loaded(Program.B_FULL, ofB).at("/counts/same").asInt()).isEqualTo(1);
    JsonNode theirs = loaded(Program.B_FULL, record("quay-side", "withdrawal", 0));
    assertThat(theirs.at("/counts/replaced").asInt()).isEqualTo(1);
  }

  @Test
  void nobodyPutsACaseUnderAnotherClinicsName() throws Exception {
    String ofB = record("quay-side", "case", 6).replace("T-1", "T-6").replace("S-1", "S-6");
    assertThat(loaded(Program.B_FULL, ofB).at("/counts/new").asInt()).isEqualTo(1);
    for (String kind : new String[] {"case", "withdrawal"}) {
      String spoofed = record("harbour-lane", "quay-side", kind, 7).replace("T-1", "T-6");
      JsonNode refused = loaded(Program.A_FULL, spoofed);
      assertThat(refused.at("/counts/refused").asInt()).isEqualTo(1);
      assertThat(refused.at("/refusals/0/code").asString()).isEqualTo("record-clinic");
      assertThat(refused.at("/refusals/0/pointer").asString()).isEqualTo("/clinic");
    }
    assertThat(loaded(Program.B_FULL, ofB).at("/counts/same").asInt()).isEqualTo(1);
  }

  /** The case goes on under the clinic that has the patient now, by its own submission. */
  @Test
  void aTransferredPatientIsSubmittedByEachClinicForItself() throws Exception {
    String before = record("quay-side", "case", 2).replace("S-1", "S-7").replace("T-1", "T-7");
    String after = record("harbour-lane", "harbour-lane", "case", 3).replace("S-1", "S-7");
    assertThat(loaded(Program.B_FULL, before).at("/counts/new").asInt()).isEqualTo(1);
    assertThat(loaded(Program.A_FULL, after).at("/counts/new").asInt()).isEqualTo(1);
    assertThat(loaded(Program.B_FULL, before).at("/counts/same").asInt()).isEqualTo(1);
  }

  @Test
  void whoReachesNoClinicSubmitsNothing() throws IOException {
    String line = record("quay-side", "case", 5);
    mustBe(403, as(Program.STRANGER, "POST", "/registry/outcomes").json(line).reply());
  }

  private JsonNode loaded(Program program, String line) throws Exception {
    Knock.Reply sent = as(program, "POST", "/registry/outcomes").json(line).reply();
    mustBe(202, sent);
    String place = sent.header("Location");
    JsonNode status = json.createObjectNode();
    for (int i = 0; i < 300 && !status.path("state").asString("").equals("done"); i++) {
      Thread.sleep(100);
      status = read(as(program, "GET", place).reply());
    }
    return status;
  }

  static String record(String submitter, String kind, int reviews) {
    return record(submitter, "quay-side", kind, reviews);
  }

  static String record(String submitter, String clinic, String kind, int reviews) {
    boolean leaves = kind.equals("withdrawal");
    return """
        {"format":"intercusp-outcome/1","kind":"%s","submitter":{"system":"%s","value":"%s"},\
        "submission":"S-1","clinic":{"system":"%s","value":"%s"},"treatment":"T-1",\
        "patient":{"system":"https://a.example/p","value":"9434765919"},\
        "consent":{"recordedOn":"2023-05-01"%s}%s}
        """
        .formatted(
            kind,
            GuardedService.CLINICS,
            submitter,
            GuardedService.CLINICS,
            clinic,
            leaves ? ",\"withdrawnOn\":\"2024-05-01\"" : "",
            leaves
                ? ""
                : """
                ,"course":{"birthDate":"2011-03-29","sex":"male","appliance":"twin-block",\
                "firstFittedOn":"2023-05-11","status":"in-treatment","reviews":%d,"breakages":0}\
                """
                    .formatted(reviews));
  }
}
