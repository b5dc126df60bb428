package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** A bite of a re-activation is for the appliance worn then. */
class ReactivationBiteTest {

  private static final String CROSSED =
      """
      "/bites/-": {"id": "B2", "recordedOn": "2026-06-01", "overjetHabitual": 5.5,
       "overbiteHabitual": 4, "overjetInBite": 1.5, "retrudedReading": 0, "habitualReading": 1,
       "registeredReading": 5, "maximumReading": 13, "incisalClearance": 2, "restSpace": 2.5,
       "premolarClearance": 5.5, "molarClearance": 5, "upperIncisorHeight": 8,
       "lowerIncisorHeight": 7, "crossbiteInBite": true},
       "/reviews/2/reactivation": {"amount": 2, "biteId": "B2"}""";

  private static final String SCREW =
      """
      {"arch": "upper", "turn": 0.25, "plannedTurns": 16, "daysPerTurn": 7}""";

  private static final String RETAINER =
      """
      {"id": "A2", "type": "retainer", "orderedOn": "2026-06-20", "fittedOn": "%s",
       "clasps": [], "incisalCapping": false, "material": "polyamide", "screw": SCREW}"""
          .replace("SCREW", SCREW);

  @Test
  void theScrewOfTheWornApplianceCounts() {
    assertThat(FoundIn.changes("bite-transverse", CROSSED + ", \"/appliances/0/screw\": " + SCREW))
        .isEmpty();
  }

  @Test
  void withoutOneItIsFound() {
    assertThat(FoundIn.changes("bite-transverse", CROSSED))
        .extracting(finding -> finding.pointer().text())
        .containsExactly("/bites/1/crossbiteInBite");
  }

  @Test
  void oneOfAnApplianceFittedLaterDoesNotCount() {
    assertThat(
            FoundIn.changes(
                "bite-transverse",
                CROSSED + ", \"/appliances/-\": " + RETAINER.formatted("2026-07-01")))
        .isNotEmpty();
  }
}
