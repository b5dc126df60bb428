package org.intercusp.summary;

import java.time.LocalDate;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Treatment;

/** Records that hold too little, too much or something foul. */
final class OddTreatments {

  static final String LONG = "Wintergarten".repeat(25);

  static final String NO_REVIEWS = "{\"/reviews\": []}";
  static final String BARE =
      "{\"/reviews\": [], \"/bites\": [], \"/appliances\": [], \"/stages\": [],"
          + " \"/laboratory\": null, \"/patient/allergies\": null, \"/patient/consent\": null,"
          + " \"/diagnosis/lips\": null, \"/diagnosis/growthStage\": null,"
          + " \"/diagnosis/jointSigns\": null, \"/diagnosis/hygiene\": null,"
          + " \"/diagnosis/activeCaries\": null}";

  private OddTreatments() {}

  static Treatment hostile() {
    String name = "<script>alert(1)</script>${7*7}&#x3c;img src=//evil.example/x onerror=1>";
    return SampleTreatments.changed(
        "{\"/patient/family\": \""
            + name
            + "\\u202Egpj\", \"/patient/given\": [\""
            + LONG
            + "\"], \"/clinic/name\": \""
            + LONG
            + "\", \"/clinician/family\": \"' onload='x\", \"/appliances/0/material\": \""
            + name
            + "\"}");
  }

  static Treatment sixtyReviews() {
    return sixtyReviews("");
  }

  /**
   * Sixty reviews with harm, and patient, clinic, clinician and material with names of 300 letters.
   */
  static Treatment sixtyReviewsOfLongNames() {
    StringBuilder names = new StringBuilder();
    for (String at :
        new String[] {
          "/patient/family", "/clinic/name", "/clinician/family", "/appliances/0/material"
        }) {
      names.append(", \"").append(at).append("\": \"").append(LONG).append("\"");
    }
    return sixtyReviews(names.toString());
  }

  private static Treatment sixtyReviews(String more) {
    StringBuilder reviews = new StringBuilder("{\"/reviews\": [");
    for (int i = 0; i < 60; i++) {
      reviews
          .append(i == 0 ? "" : ",")
          .append("{\"id\": \"R")
          .append(i)
          .append("\", \"date\": \"")
          .append(LocalDate.parse("2026-03-01").plusDays(2L * i))
          .append("\", \"stageId\": \"S1\", \"seenBy\": \"A\", \"kind\": \"planned\",")
          .append(
              "\"overjet\": 7, \"overbite\": 3, \"molarRelation\": {\"right\": 1, \"left\": 1},")
          .append("\"adverseEvents\": [{\"code\": \"joint\", \"severity\": \"severe\",")
          .append(
              "\"serious\": true, \"suspectedAppliance\": true, \"onsetOn\": \"2026-03-01\"}]}");
    }
    return SampleTreatments.changed(reviews.append("]").append(more).append("}").toString());
  }
}
