package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The branches of rules that their two samples don't reach: what changes, what is found where. */
class RuleBranchesTest {

  /** The fitting and one review twelve weeks later. */
  private static final String TWO_POINTS =
      """
      "/reviews/3": null, "/reviews/2": null, "/reviews/1": null,
       "/reviews/0/date": "2026-05-19", "/reviews/0/kind": "planned\"""";

  private static final String SLOW =
      """
      "/reviews/0/overjet": 8, "/reviews/1/overjet": 8, "/reviews/2/overjet": 7.5,
       "/reviews/3/overjet": 7""";

  @ParameterizedTest(name = "{0} {1} {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          bite-readings-order | error | /bites/0/habitualReading | "/bites/0/retrudedReading": 1.5
          bite-readings-order | error | /bites/0/registeredReading | "/bites/0/registeredReading": 0.5
          bite-path-implausible | warning | /bites/0/maximumReading | "/bites/0/maximumReading": 5.9
          bite-overjet-mismatch | warning | /bites/0/overjetInBite | "/bites/0/overjetInBite": -0.1
          bite-clearance-low | warning | /bites/0/premolarClearance | "/bites/0/premolarClearance": 3.9, "/bites/0/restSpace": null
          bite-clearance-high | warning | /bites/0/premolarClearance | "/bites/0/premolarClearance": 8.1
          bite-height-occlusion | information | /bites/0/overbiteHabitual | "/bites/0/overbiteHabitual": 2.9
          bite-midline | warning | /bites/0/lowerMidlineInBite | "/bites/0/lowerMidlineInBite": 1.5
          appliance-incline-range | error | /appliances/0/inclineAngle | "/appliances/0/inclineAngle": 90.5
          appliance-incline-unusual | warning | /appliances/0/inclineAngle | "/appliances/0/inclineAngle": 75.5
          appliance-block-extent | error | /appliances/0/blocks/0/mesialTooth | "/appliances/0/blocks/0/mesialTooth": "14"
          appliance-block-extent | error | /appliances/0/blocks | "/appliances/0/blocks/3": null
          appliance-block-extent | error | /appliances/0/blocks | "/appliances/0/blocks/0/mesialTooth": "16", "/appliances/0/blocks/2/distalTooth": "44"
          appliance-block-extent | error | /appliances/0/blocks/2/mesialTooth | "/appliances/0/blocks/2/mesialTooth": "47", "/appliances/0/blocks/2/distalTooth": "44"
          appliance-block-extent | error | /appliances/0/blocks/0/distalTooth | "/appliances/0/blocks/0/mesialTooth": "16", "/appliances/0/blocks/0/distalTooth": "14"
          appliance-block-extent | error | /appliances/0/blocks/0/mesialTooth | "/appliances/0/blocks/0/mesialTooth": "16", "/appliances/0/blocks/0/distalTooth": "15"
          appliance-block-extent | error | /appliances/0/blocks/3/mesialTooth | "/appliances/0/blocks/3/mesialTooth": "24"
          appliance-block-extent | error | /appliances/0/blocks/3/distalTooth | "/appliances/0/blocks/3/distalTooth": "45"
          appliance-block-height | warning | /appliances/0/blockHeights/premolar | "/appliances/0/blockHeights/premolar": 3.9
          appliance-block-height | warning | /appliances/0/blockHeights/molar | "/bites/0/restSpace": 5.0
          appliance-block-height | information | /appliances/0/blockHeights/molar | "/bites/0/molarClearance": null, "/appliances/0/blockHeights/molar": 7.0
          appliance-clasp-tooth | error | /appliances/0/clasps/4/tooth | "/appliances/0/clasps/-": {"tooth": "16", "kind": "adams", "wire": 0.7}
          appliance-clasp-tooth | error | /appliances/0/clasps/0/tooth | "/appliances/0/teethPresent": ["26", "34", "44"]
          appliance-incline-unusual | information | /appliances/0/inclineAngle | "/appliances/0/inclineAngle": 64.9
          appliance-incline-unusual | information | /appliances/0/inclineAngle | "/appliances/0/inclineAngle": 45.1
          appliance-incline-unusual | warning | /appliances/0/inclineAngle | "/appliances/0/inclineAngle": 90
          appliance-block-height | information | /appliances/0/blockHeights/premolar | "/bites/0/premolarClearance": null, "/appliances/0/blockHeights/premolar": 8
          appliance-block-height | warning | /appliances/0/blockHeights/molar | "/appliances/0/blockHeights/molar": 3.4
          appliance-block-height | warning | /appliances/0/blockHeights/premolar | "/bites/0/restSpace": 5.5
          appliance-retention | warning | /appliances/0/clasps | "/appliances/0/type": "anterior-inclined-plane", "/appliances/0/clasps": [{"tooth": "16", "kind": "adams", "wire": 0.7}]
          appliance-retention | warning | /appliances/0/clasps | "/appliances/0/type": "retainer", "/appliances/0/clasps": []
          appliance-retention | warning | /appliances/0/clasps | "/appliances/0/type": "retainer", "/appliances/0/labialBow": null, "/appliances/0/clasps": [], "/appliances/0/screw": {"arch": "lower", "turn": 0.25, "plannedTurns": 4, "daysPerTurn": 7}
          appliance-retention | warning | /appliances/0/clasps | "/appliances/0/type": "retainer", "/appliances/0/clasps": [{"tooth": "16", "kind": "adams", "wire": 0.7}, {"tooth": "26", "kind": "adams", "wire": 0.7}, {"tooth": "36", "kind": "adams", "wire": 0.7}]
          appliance-wire | warning | /appliances/0/labialBow/wire | "/appliances/0/labialBow/wire": 0.91
          appliance-wire | warning | /appliances/0/clasps/3/wire | "/appliances/0/clasps/3/wire": 0.81
          appliance-wire | warning | /appliances/0/labialBow/wire | "/appliances/0/labialBow/wire": 0.6
          appliance-wire | warning | /appliances/0/clasps/0/wire | "/appliances/0/clasps/0/wire": 0.59
          appliance-allergy | warning | /appliances/0/alloy | "/patient/allergies": ["Nickel sulphate"]
          appliance-allergy | warning | /appliances/0 | "/patient/allergies": ["nickel"], "/appliances/0/alloy": null
          appliance-allergy | warning | /patient/allergies/0 | "/patient/allergies": ["latex"]
          appliance-allergy | error | /appliances/0/material | "/patient/allergies": ["acrylic"], "/appliances/0/material": "light-cured resin"
          appliance-allergy | warning | /patient | "/patient/allergies": null
          diagnosis-joint | warning | /diagnosis | "/diagnosis/jointSigns": null
          diagnosis-caries | warning | /diagnosis | "/diagnosis/activeCaries": null
          bite-first-step-small | warning | /bites/0/maximumReading | "/bites/0/habitualReading": 7, "/bites/0/registeredReading": 7, "/bites/0/maximumReading": 10, "/bites/0/overjetInBite": 8
          stage-trim-open-bite | error | /stages/0/trimming | "/reviews/3/overbite": 1
          stage-trim-open-bite | error | /stages/1/trimming | "/reviews/3/overbite": 1, "/stages/1/trimming": {"perVisit": 1, "fromReview": 1}
          review-progress-slow | warning | /reviews/3/overjet | SLOW, "/stages/0/goals": []
          review-progress-slow | warning | /reviews/3/overjet | SLOW, "/stages/0/goals/0": null
          review-stage-ready | information | /reviews/3/stageId | "/asOf": "2028-01-20", "/reviews/2/stageId": "S3", "/reviews/3/stageId": "S3", "/reviews/2/date": "2027-10-01", "/reviews/3/date": "2027-12-24", "/reviews/2/overjet": 2, "/reviews/2/overjetRetruded": 2, "/reviews/3/overjet": 2, "/reviews/3/overjetRetruded": 2
          stage-order | error | /stages/1/startsOn | "/stages/1/startsOn": "2026-11-23"
          stage-order | error | /stages | "/stages/2": null
          stage-order | error | /stages | "/stages/0/kind": "support"
          stage-length | warning | /stages/0/months | "/stages/0/months": 5
          stage-length | warning | /stages/1/months | "/stages/1/months": 2
          stage-length | warning | /stages/1/months | "/stages/1/months": 7
          stage-length | warning | /stages/2/months | "/stages/2/months": 8
          stage-wear | information | /stages/0/wearHours | "/stages/0/wearHours": 20.0
          stage-wear | information | /stages/0/wearHours | "/stages/0/wearHours": 12
          stage-wear | warning | /stages/1/wearHours | "/stages/1/wearHours": 11
          stage-wear | warning | /stages/2/wearHours | "/stages/2/wearHours": 12.5
          stage-trim-open-bite | error | /stages/0/trimming | "/bites/0/overbiteHabitual": -1
          diagnosis-class | error | /diagnosis/incisorClass | "/diagnosis/incisorClass": "I"
          diagnosis-class | error | /diagnosis/incisorClass | "/diagnosis/incisorClass": "I", "/diagnosis/overjet": -0.5
          diagnosis-class | error | /diagnosis/incisorClass | "/diagnosis/incisorClass": "III", "/diagnosis/overjet": 3.1
          diagnosis-class | warning | /diagnosis/molarRelation | "/diagnosis/molarRelation": {"right": 0, "left": -1}
          diagnosis-growth | information | /diagnosis/growthStage | "/diagnosis/growthStage": "CS6"
          diagnosis-caries | warning | /diagnosis/hygiene | "/diagnosis/hygiene": "poor"
          review-order | error | /reviews/0/date | "/reviews/0/date": "2026-02-23"
          review-order | error | /reviews/0/date | "/appliances/0/fittedOn": null
          review-overdue | warning | /reviews | "/reviews": []
          review-overdue | warning | /reviews/3 | "/reviews/3/nextReviewOn": null, "/reviews/3/date": "2026-05-24", "/reviews/2/date": "2026-05-23"
          review-wear-doubt | warning | /reviews/3/wearMeasured/hoursPerDay | "/reviews/3/overjet": 7.5, "/reviews/3/wearMeasured": {"hoursPerDay": 7.9, "from": "2026-05-01", "to": "2026-05-31"}
          review-harm | urgent | /reviews/1/adverseEvents/0 | "/reviews/1/adverseEvents": [{"code": "other", "severity": "mild", "serious": true, "suspectedAppliance": false, "onsetOn": "2026-04-01"}]
          review-joint | urgent | /reviews/0/jointSigns/1 | "/reviews/0/jointSigns": ["click", "limited-opening"]
          date-order | error | /diagnosis/assessedOn | "/patient/birthDate": "2026-01-12"
          date-order | error | /bites/0/recordedOn | "/diagnosis/assessedOn": "2026-02-03"
          date-order | error | /appliances/0/orderedOn | "/appliances/0/orderedOn": "2026-02-01"
          date-order | error | /reviews/0/date | "/reviews/0/date": "2026-02-23"
          date-order | error | /reviews/3/date | "/asOf": "2026-07-12"
          """)
  void isFound(String code, String severity, String pointer, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes)))
        .extracting(finding -> finding.severity().code(), finding -> finding.pointer().text())
        .contains(org.assertj.core.groups.Tuple.tuple(severity, pointer));
  }

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          bite-readings-order | "/bites/0/retrudedReading": null
          bite-clearance-low | "/bites/0/premolarClearance": 4.0, "/bites/0/restSpace": null
          bite-clearance-low | "/bites/0/premolarClearance": null
          bite-clearance-high | "/bites/0/incisalClearance": 5, "/bites/0/overbiteHabitual": 1.9
          bite-midline | "/bites/0/lowerMidlineInBite": null
          bite-path-implausible | "/bites/0/maximumReading": 6.0, "/bites/0/registeredReading": 4
          appliance-incline-unusual | "/appliances/0/inclineAngle": 45.0
          appliance-incline-unusual | "/appliances/0/inclineAngle": 44
          appliance-incline-unusual | "/appliances/0/inclineAngle": 65
          appliance-incline-unusual | "/appliances/0/inclineAngle": null
          appliance-incline-range | "/appliances/0/inclineAngle": 45
          appliance-wire | "/appliances/0/labialBow/wire": 0.7, "/appliances/0/clasps/0/wire": 0.6
          appliance-wire | "/appliances/0/labialBow/wire": 0.90, "/appliances/0/clasps/0/wire": 0.8
          appliance-block-height | "/appliances/0/blockHeights": {"premolar": 4.0, "molar": 3.5}
          appliance-block-height | "/appliances/0/blockHeights": {"premolar": 7.0, "molar": 6.5}
          appliance-block-height | "/bites/0/restSpace": 4.9
          appliance-block-height | "/appliances/0/blockHeights": null
          appliance-retention | "/appliances/0/type": "anterior-inclined-plane", "/appliances/0/clasps/3": null, "/appliances/0/clasps/2": null
          appliance-retention | "/appliances/0/type": "retainer", "/appliances/0/labialBow": null, "/appliances/0/clasps": []
          appliance-incline-range | "/appliances/0/inclineAngle": 90.0
          appliance-allergy | "/patient/allergies": ["acrylic"], "/appliances/0/material": "acrylic-free polyamide"
          appliance-allergy | "/patient/allergies": ["nickel"], "/appliances/0/alloy": "titanium"
          appliance-allergy | "/patient/allergies": ["latex"], "/appliances": [], "/stages": [], "/reviews": []
          appliance-block-extent | "/appliances/0/blocks/2/mesialTooth": "84", "/appliances/0/blocks/2/distalTooth": "85"
          appliance-block-extent | "/appliances/0/blocks/2/mesialTooth": "45"
          review-order | "/appliances/0/fittedOn": null, "/reviews": []
          appliance-allergy | "/patient/allergies": null, "/appliances": [], "/stages": [], "/reviews": []
          diagnosis-caries | "/diagnosis/activeCaries": null, "/appliances": [], "/stages": [], "/reviews": []
          bite-first-step-small | "/bites/0/overjetHabitual": 4.5, "/bites/0/registeredReading": 5, "/bites/0/overjetInBite": 0.5, "/bites/0/comfortable": false
          stage-trim-open-bite | "/reviews/3/overbite": 1.1
          stage-trim-open-bite | "/reviews/3/overbite": 1, "/reviews/3/posteriorOpenBite": {"right": 0, "left": 0}
          stage-trim-open-bite | "/reviews/3/overbite": 1, "/reviews/3/stageId": "S2"
          stage-trim-open-bite | "/reviews/3/overbite": 1, "/completion": {"status": "completed", "decidedOn": "2026-07-13", "lastAttendedOn": "2026-07-13"}
          review-progress-slow | SLOW, "/stages/0/goals/0/comparator": "ge"
          review-progress-slow | "/reviews/3/overjet": -0.5, "/bites/0/overjetHabitual": 0, "/reviews/0/overjet": 0, "/reviews/1/overjet": 0, "/reviews/2/overjet": 0, "/stages/0/goals": [{"measure": "overjet", "comparator": "ge", "target": 0}, {"measure": "overjet", "comparator": "le", "target": 2}]
          review-progress-slow | "/reviews/0/overjet": 3.5, "/reviews/1/overjet": 3.5, "/reviews/2/overjet": 3.5, "/reviews/3/overjet": 3, "/bites/0/overjetHabitual": 3.5, "/stages/0/goals": []
          review-stage-ready | "/asOf": "2028-01-20", "/reviews/2/stageId": "S3", "/reviews/3/stageId": "S3", "/reviews/2/date": "2027-10-01", "/reviews/3/date": "2027-12-23", "/reviews/2/overjet": 2, "/reviews/2/overjetRetruded": 2, "/reviews/3/overjet": 2, "/reviews/3/overjetRetruded": 2
          review-stage-ready | "/stages/0/goals/1": null, "/reviews/2/overjet": 2, "/reviews/2/overjetRetruded": 2, "/reviews/3/overjet": 2, "/reviews/3/overjetRetruded": 2, "/reviews/2/date": "2026-07-13"
          stage-order | "/stages/1/startsOn": "2026-11-24"
          stage-order | "/stages": [], "/reviews": []
          stage-wear | "/stages/0/wearHours": null
          diagnosis-class | "/diagnosis/incisorClass": "I", "/diagnosis/overjet": 5.0
          diagnosis-class | "/diagnosis/incisorClass": "III", "/diagnosis/overjet": 3.0
          diagnosis-growth | "/diagnosis/growthStage": null
          diagnosis-joint | "/diagnosis/jointSigns": null, "/appliances": [], "/stages": [], "/reviews": []
          review-overdue | "/completion": {"status": "completed", "decidedOn": "2026-07-13", "lastAttendedOn": "2026-07-13"}, "/reviews/3/nextReviewOn": "2026-01-01"
          review-wear-doubt | "/reviews/0/overjet": 8, "/reviews/0/retractionTenderness": "absent"
          review-wear-doubt | "/reviews/3/overjet": 7.5, "/reviews/3/wearMeasured": {"hoursPerDay": 8.0, "from": "2026-05-01", "to": "2026-05-31"}, "/reviews/3/retractionTenderness": "absent"
          outcome-missing | "/completion": {"status": "transferred", "decidedOn": "2026-07-13", "lastAttendedOn": "2026-07-13"}
          date-order | "/reviews/3/nextReviewOn": "2027-01-01"
          """)
  void isNotFound(String code, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes))).isEmpty();
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          bite-share-exceeded | "/bites/0/registeredReading": 9.2, "/bites/0/overjetInBite": -0.2
          bite-overjet-mismatch | "/bites/0/overjetInBite": 2.5
          review-opening | "/reviews/3/maximumOpening": 34.8
          diagnosis-class | "/diagnosis/incisorClass": "I", "/diagnosis/overjet": 5.1
          diagnosis-class | "/diagnosis/incisorClass": "I", "/diagnosis/overjet": -0.2
          diagnosis-class | "/diagnosis/overjet": 1.9
          diagnosis-class | "/diagnosis/incisorClass": "III", "/diagnosis/overjet": 3.1
          diagnosis-class | "/diagnosis/molarRelation": {"right": -1, "left": -0.2}
          review-progress-slow | TWO-POINTS, "/reviews/0/overjet": 7.4
          """)
  void aReadingNearTheLimitSaysSo(String code, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes)))
        .singleElement()
        .satisfies(finding -> assertThat(finding.message()).contains("Borderline"));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          bite-share-exceeded | "/bites/0/registeredReading": 11, "/bites/0/overjetInBite": -2
          bite-overjet-mismatch | "/bites/0/overjetInBite": 4
          review-opening | "/reviews/3/maximumOpening": 30
          diagnosis-class | "/diagnosis/incisorClass": "I", "/diagnosis/overjet": 5.5
          diagnosis-class | "/diagnosis/overjet": 1.5
          diagnosis-class | "/diagnosis/molarRelation": {"right": -1, "left": -0.5}
          review-progress-slow | TWO-POINTS, "/reviews/0/overjet": 11
          review-progress-slow | TWO-POINTS, "/reviews/0/overjet": 7.8
          """)
  void aReadingFarFromTheLimitDoesNot(String code, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes)))
        .singleElement()
        .satisfies(finding -> assertThat(finding.message()).doesNotContain("Borderline"));
  }

  private static String spelled(String changes) {
    return changes.replace("SLOW", SLOW).replace("TWO-POINTS", TWO_POINTS);
  }
}
