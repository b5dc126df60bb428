package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A warning goes away once a later record shows that it is over, and not before; it speaks of the
 * last record by date, wherever that stands in the file.
 */
class PutRightTest {

  private static final String AGAIN =
      """
      {"id": "B2", "recordedOn": "2026-02-03", "overjetHabitual": 8, "overbiteHabitual": 4,
       "overjetInBite": 1, "retrudedReading": 0, "habitualReading": 1, "registeredReading": 8,
       "maximumReading": 13, "incisalClearance": 2, "premolarClearance": 5.5,
       "molarClearance": 5, "restSpace": 2.5, "upperIncisorHeight": 8, "lowerIncisorHeight": 7}""";

  private static final String REVIEW =
      """
      {"id": "R5", "date": "2026-07-13", "stageId": "S1", "seenBy": "Ada Winterbourne",
       "kind": "urgent", "overjet": 4.5, "overbite": 3, "molarRelation": {"right": 0, "left": 0}%s}""";

  private static final String OUTCOME =
      """
      {"id": "%s", "date": "%s", "phase": "%s", "source": "mouth",
       "examiner": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"},
       "findings": {"overjet": %s, "teethEdgeToEdge": 0, "teethInAnteriorCrossbite": 0,
        "overbite": 3, "overbiteCover": 0.3, "overbiteContact": "none", "lateralOpenBite": 0,
        "centreline": 0, "contacts": {"upper": [0, 0, 0, 0, 0], "lower": [0, 0, 0, 0, 0]},
        "worstDisplacement": 0,
        "buccal": {"right": {"anteroposterior": "full", "open": false, "transverse": "none"},
                   "left": {"anteroposterior": "full", "open": false, "transverse": "none"}},
        "crossbite": false, "crossbiteShift": 0, "lingualCrossbiteNoContact": false,
        "lips": "incompetent", "masticatoryDifficulty": false, "speechDifficulty": false,
        "missingTeeth": [], "impededTeeth": [], "tippedTeeth": [], "submergedTeeth": [],
        "supernumerary": false, "cleft": false, "aestheticComponent": 5,
        "upperCrowding": 0, "upperSpacing": 0}}""";

  private static final String SCORED =
      """
      {"id": "%s", "date": "%s", "phase": "end", "source": "mouth",
       "examiner": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"},
       "scores": {"dhc": "1"}}""";

  private static final String FILM =
      """
      {"id": "%s", "takenOn": "%s", "jaw": "habitual", "gonion": "constructed",
       "landmarks": {"Go": [0, 0], "Me": [60, 0], "Lia": [50, 8], "Li": [%s, 30]}}""";

  private static final String REMADE =
      """
      {"id": "A2", "type": "twin-block", "biteId": "B1", "orderedOn": "2026-02-04", "fittedOn": "%s",
       "blocks": [
        {"arch": "upper", "side": "right", "mesialTooth": "15", "distalTooth": "16"},
        {"arch": "upper", "side": "left", "mesialTooth": "25", "distalTooth": "26"},
        {"arch": "lower", "side": "right", "mesialTooth": "44", "distalTooth": "45"},
        {"arch": "lower", "side": "left", "mesialTooth": "34", "distalTooth": "35"}],
       "clasps": [
        {"tooth": "16", "kind": "delta", "wire": 0.7}, {"tooth": "26", "kind": "delta", "wire": 0.7},
        {"tooth": "44", "kind": "delta", "wire": 0.7}, {"tooth": "34", "kind": "delta", "wire": 0.7}],
       "incisalCapping": true, "material": "polyamide", "alloy": "titanium",
       "lab": {"requiredOn": "2026-02-20", "records": "scan", "disinfected": true,
        "remakeOf": "A1", "retentionYears": 10}}""";

  private static final String FIRST = FILM.formatted("F1", "2026-01-12", "57");
  private static final String FORWARD = FILM.formatted("F2", "2026-04-13", "59.5");
  private static final String BACK = FILM.formatted("F3", "2026-07-13", "57.5");

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          review-opening | "/reviews/1/maximumOpening": 30
          review-dual-bite | "/reviews/1/overjetRetruded": 12
          review-overcorrection | "/reviews/2/overjet": -1
          review-wear-doubt | "/reviews/1/overjet": 8, "/reviews/1/wearMeasured": {"hoursPerDay": 6, "from": "2026-04-01", "to": "2026-04-20"}
          review-wear-doubt | "/reviews/1/overjet": 8, "/reviews/2/overjet": 8, "/reviews/3/overjet": 8, "/reviews/1/retractionTenderness": "absent", "/reviews/2/retractionTenderness": "absent", "/reviews/3/retractionTenderness": "present"
          review-incisors | "/films": [FIRST, FORWARD, BACK]
          diagnosis-caries | "/diagnosis/hygiene": "poor", "/reviews/1/hygiene": "poor", "/reviews/3/hygiene": "fair"
          bite-clearance-low | "/bites/0/premolarClearance": 3.5, "/bites/0/restSpace": null, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-clearance-high | "/bites/0/premolarClearance": 8.5, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-transverse | "/bites/0/crossbiteInBite": true, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-midline | "/bites/0/lowerMidlineInBite": 2, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-step-large | "/bites/0/registeredReading": 12, "/bites/0/maximumReading": 18, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-path-implausible | "/bites/0/maximumReading": 18.5, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-first-step-small | "/bites/0/maximumReading": 8, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-share-borderline | "/bites/0/registeredReading": 9, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-height-band | "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-height-band | "/bites/0/recordedOn": "2026-02-03", "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          appliance-allergy | "/patient/allergies": ["nickel"], "/appliances/-": REMADE
          appliance-allergy | "/patient/allergies": ["nickel"], "/appliances/0/fittedOn": null, "/appliances/-": REMADE
          appliance-allergy | "/patient/allergies": ["acrylic"], "/appliances/0/material": "Vertex", "/appliances/-": REMADE
          appliance-retention | "/appliances/0/clasps/3": null, "/appliances/-": REMADE
          appliance-wire | "/appliances/0/clasps/0/wire": 0.9, "/appliances/-": REMADE
          appliance-incline-unusual | "/appliances/0/inclineAngle": 60, "/appliances/-": REMADE
          appliance-block-height | "/appliances/0/blockHeights/molar": 7, "/appliances/-": REMADE
          appliance-capping | "/appliances/0/incisalCapping": false, "/films": [STEEP], "/appliances/-": REMADE
          bite-stale | "/bites/0/recordedOn": "2025-12-01", "/diagnosis/assessedOn": "2025-12-01", "/bites/-": AGAIN, "/appliances/-": REMADE-TO-NEW
          outcome-relapse | "/outcomes": [END-5-LAST, END-2-FIRST, HELD-4]
          outcome-missing | "/outcomes": [START, END-2-LAST, SCORED-END-BEFORE], COMPLETED
          review-progress-slow | SLOW, "/completion": {"status": "patient-stopped", "decidedOn": "2026-07-13", "lastAttendedOn": "2026-07-13"}
          review-overdue | "/reviews/3/nextReviewOn": "2026-07-01", "/reviews/-": REVIEW-DUE-LATER
          """)
  void isNoLongerFound(String code, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes))).isEmpty();
  }

  @ParameterizedTest(name = "{0} {1} {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          review-opening | /reviews/2/maximumOpening | "/reviews/2/maximumOpening": 30, "/reviews/3/maximumOpening": null
          review-opening | /reviews/4/maximumOpening | "/reviews/-": REVIEW-OPENS-LITTLE
          review-dual-bite | /reviews/2/overjetRetruded | "/reviews/2/overjetRetruded": 12, "/reviews/3/overjetRetruded": null
          review-wear-doubt | /reviews/2/retractionTenderness | "/reviews/1/overjet": 8, "/reviews/2/overjet": 8, "/reviews/3/overjet": 8, "/reviews/2/retractionTenderness": "absent", "/reviews/3/retractionTenderness": null
          review-wear-doubt | /reviews/3/retractionTenderness | "/reviews/1/overjet": 8, "/reviews/2/overjet": 8, "/reviews/3/overjet": 8, "/reviews/2/retractionTenderness": "absent"
          review-incisors | /films/1 | "/films": [BACK, FORWARD-LAST, FIRST]
          diagnosis-caries | /diagnosis/hygiene | "/diagnosis/hygiene": "poor", "/reviews/2/hygiene": "good", "/reviews/3/hygiene": "poor"
          review-overdue | /reviews/4/nextReviewOn | "/reviews/-": REVIEW-DUE-SOON
          bite-clearance-low | /bites/0/premolarClearance | "/bites/0/premolarClearance": 3.5, "/bites/0/restSpace": null, "/bites/-": AGAIN
          bite-clearance-low | /bites/0/premolarClearance | "/bites/0/premolarClearance": 3.5, "/bites/0/restSpace": null, "/bites/-": AGAIN, "/appliances/0/biteId": "B2", "/reviews/3/reactivation": {"amount": 2, "biteId": "B1"}
          bite-clearance-low | /bites/0/premolarClearance | "/bites/0/premolarClearance": 3.5, "/bites/0/restSpace": null, "/bites/0/recordedOn": "2026-02-04", "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-share-exceeded | /bites/0/registeredReading | "/bites/0/registeredReading": 9.5, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-readings-order | /bites/0/maximumReading | "/bites/0/maximumReading": 7, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-overjet-mismatch | /bites/0/overjetInBite | "/bites/0/overjetInBite": 3, "/bites/-": AGAIN, "/appliances/0/biteId": "B2"
          bite-height-occlusion | /reviews/2/overbite | "/reviews/2/overbite": 1, "/reviews/2/date": "2026-07-14", COMPLETED
          bite-height-occlusion | /reviews/3/overbite | "/bites/-": AGAIN-BEFORE, "/reviews/3/overbite": 2.5, COMPLETED
          review-progress-slow | /reviews/3/overjet | SLOW
          appliance-allergy | /appliances/0/alloy | "/patient/allergies": ["nickel"], "/appliances/-": NOT-YET
          appliance-allergy | /appliances/0/material | "/patient/allergies": ["acrylic"], "/appliances/-": REMADE
          appliance-allergy | /appliances/0/material | "/patient/allergies": ["acrylic"], "/appliances/0/material": "Vertex", "/appliances/-": NOT-YET
          appliance-retention | /appliances/0/clasps | "/appliances/0/clasps/3": null, "/appliances/-": NOT-YET
          appliance-incline-range | /appliances/0/inclineAngle | "/appliances/0/inclineAngle": 40, "/appliances/-": REMADE
          outcome-relapse | /outcomes/2/findings/overjet | "/outcomes": [END-2-LAST, END-5-FIRST, HELD-4]
          outcome-relapse | /outcomes/2/findings/overjet | "/outcomes": [ACTIVE-2, SCORED-END, HELD-4]
          outcome-missing | /outcomes/1 | "/outcomes": [START, SCORED-END], COMPLETED
          bite-stale | /appliances/0/orderedOn | "/bites/0/recordedOn": "2025-12-01", "/diagnosis/assessedOn": "2025-12-01"
          """)
  void isFoundOnceWhereItStillHolds(String code, String pointer, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes)))
        .extracting(finding -> finding.pointer().text())
        .filteredOn(at -> !at.startsWith("/bites") || pointer.startsWith("/bites"))
        .containsExactly(pointer);
  }

  private static String outcome(String id, String date, String phase, String overjet) {
    return OUTCOME
        .formatted(id, date, phase, overjet);
  }

  private static String spelled(String changes) {
    return changes
        .replace("AGAIN-BEFORE", AGAIN.replace("2026-02-03", "2026-02-01"))
        .replace("AGAIN", AGAIN)
        .replace("END-2-LAST", outcome("O2", "2026-04-09", "end", "2"))
        .replace("END-2-FIRST", outcome("O1", "2026-03-09", "end", "2"))
        .replace("END-5-LAST", outcome("O2", "2026-04-09", "end", "5"))
        .replace("END-5-FIRST", outcome("O1", "2026-03-09", "end", "5"))
        .replace("ACTIVE-2", outcome("O1", "2026-03-09", "end-active", "2"))
        .replace("HELD-4", outcome("O3", "2026-07-13", "retention-12mo", "4"))
        .replace("SCORED-END-BEFORE", SCORED.formatted("O3", "2026-04-01"))
        .replace("SCORED-END", SCORED.formatted("O2", "2026-04-09"))
        .replace("START", outcome("O0", "2026-01-12", "start", "8"))
        .replace("REMADE-TO-NEW", REMADE.formatted("2026-03-09").replace("\"B1\"", "\"B2\""))
        .replace("REMADE", REMADE.formatted("2026-07-20"))
        .replace("NOT-YET", REMADE.replace("\"fittedOn\": \"%s\",", ""))
        .replace("STEEP", FILM.formatted("F1", "2026-01-12", "54.0"))
        .replace("FORWARD-LAST", FORWARD.replace("2026-04-13", "2026-07-14"))
        .replace("FIRST", FIRST)
        .replace("FORWARD", FORWARD)
        .replace("BACK", BACK)
        .replace("REVIEW-DUE-LATER", REVIEW.formatted(", \"nextReviewOn\": \"2026-08-24\""))
        .replace("REVIEW-DUE-SOON", REVIEW.formatted(", \"nextReviewOn\": \"2026-07-01\""))
        .replace("REVIEW-OPENS-LITTLE", REVIEW.formatted(", \"maximumOpening\": 30"))
        .replace(
            "SLOW",
            """
            "/reviews/0/overjet": 8, "/reviews/1/overjet": 8, "/reviews/2/overjet": 7.5,
             "/reviews/3/overjet": 7""")
        .replace(
            "COMPLETED",
            """
            "/completion": {"status": "completed", "decidedOn": "2026-07-13",
             "lastAttendedOn": "2026-07-13"}""");
  }
}
