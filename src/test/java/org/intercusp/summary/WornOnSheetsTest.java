package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Sheets speak of the appliance in the patient's mouth, whatever the stage names. */
class WornOnSheetsTest {

  private static final String SCREW =
      "{\"arch\": \"upper\", \"turn\": 0.25, \"plannedTurns\": 14, \"daysPerTurn\": 7}";

  private static final String REMADE =
      """
      {"/appliances/0/screw": %s, "/reviews/2/screwTurns": 14, "/appliances/-":
       {"id": "A1b", "type": "twin-block", "biteId": "B1", "orderedOn": "2026-06-02",
        "fittedOn": "2026-06-15", "clasps": [], "incisalCapping": true,
        "material": "milled acrylic", "screw": %s%s}}""";

  private static final String LAB =
      """
      , "lab": {"requiredOn": "2026-06-10", "records": "scan", "disinfected": true,
       "remakeOf": "A1", "retentionYears": 10}""";

  private static final String NOT_FITTED =
      """
      {%s "/appliances/-": {"id": "A2", "type": "%s", "orderedOn": "2026-07-01", "clasps": [],
       "incisalCapping": false, "material": "acrylic"}}""";

  /** The stage still names the broken one, with or without the order saying what it replaces. */
  @ParameterizedTest
  @ValueSource(strings = {"", LAB})
  void theOneMadeAnewIsTheOneWorn(String lab) {
    Treatment remade = SampleTreatments.changed(REMADE.formatted(SCREW, SCREW, lab));
    assertThat(dentist(remade))
        .containsPattern("Material\\s+milled acrylic")
        .containsPattern("Fitted\\s+2026-06-15");
    assertThat(family(remade)).contains("Turn the screw once every 7 days");
    assertThat(card(remade, "Trim"))
        .startsWith("0.5 mm off")
        .contains("visit 5 of the trimming plan");
  }

  /** Another bite has another gap to close: its plan begins with its fitting. */
  @Test
  void anApplianceToAnotherBiteHasAPlanOfItsOwn() {
    Treatment base = SampleTreatments.base();
    String other =
        REMADE
            .formatted(SCREW, SCREW, "")
            .replace("\"biteId\": \"B1\"", "\"biteId\": \"B2\"")
            .replaceFirst(
                "\\{",
                """
                {"/bites/-": {"id": "B2", "recordedOn": "2026-06-01", "overjetHabitual": 5.5,
                 "overbiteHabitual": 4, "overjetInBite": 1, "habitualReading": 0,
                 "registeredReading": 4.5, "maximumReading": 9, "incisalClearance": 2,
                 "molarClearance": 4, "upperIncisorHeight": 11, "lowerIncisorHeight": 9},""");
    assertThat(card(SampleTreatments.changed(other), "Trim"))
        .contains("visit 2 of the trimming plan");
    assertThat(card(base, "Trim")).contains("visit 5 of the trimming plan");
  }

  @Test
  void whatIsOnlyOrderedIsNotWorn() {
    Treatment ordered =
        SampleTreatments.changed(
            NOT_FITTED.formatted("\"/stages/0/applianceId\": null,", "retainer"));
    assertThat(family(ordered)).contains("A top and a bottom brace").doesNotContain("in place ");
    assertThat(dentist(ordered))
        .containsPattern("Type\\s+twin block")
        .containsPattern("Fitted\\s+2026-02-24");
  }

  @Test
  void aStageThatHasBegunWithoutItsApplianceWearsTheOldOne() {
    Treatment support =
        SampleTreatments.changed(
            NOT_FITTED.formatted(
                "\"/stages/1/applianceId\": \"A2\", \"/reviews/3/stageId\": \"S2\",",
                "anterior-inclined-plane"));
    assertThat(family(support)).contains("A top and a bottom brace").doesNotContain("slope");
    assertThat(dentist(support)).containsPattern("Type\\s+twin block");
  }

  @Test
  void whatNobodyWearsYetIsSaidToBeOrdered() {
    Treatment ordered =
        SampleTreatments.changed("{\"/appliances/0/fittedOn\": null, \"/reviews\": []}");
    assertThat(family(ordered))
        .contains("A top and a bottom brace that work as a pair. You do not have it yet.");
    assertThat(german(ordered)).contains("die zusammen wirken. Du hast sie noch nicht.");
    assertThat(dentist(ordered))
        .containsPattern("Type\\s+twin block")
        .containsPattern("Fitted\\s+not recorded; ordered 2026-02-03");
    assertThat(card(ordered, "Trim")).isEqualTo("no appliance is recorded as fitted");
    assertThat(family(SampleTreatments.base())).doesNotContain("You do not have it yet");
  }

  /** Reviews say that something is worn, though nobody wrote down since when. */
  @Test
  void aFittingThatNobodyRecordedIsNotDenied() {
    Treatment seen = SampleTreatments.changed("{\"/appliances/0/fittedOn\": null}");
    assertThat(family(seen)).contains("A top and a bottom").doesNotContain("You do not have it");
  }

  private static String family(Treatment treatment) {
    return Written.text(Written.html(treatment, Audience.PATIENT));
  }

  private static String german(Treatment treatment) {
    return Written.text(
        new String(
            Written.bytes(treatment, Audience.PATIENT, Form.HTML, Locale.GERMAN),
            StandardCharsets.UTF_8));
  }

  private static String dentist(Treatment treatment) {
    return Written.text(Written.html(treatment, Audience.DENTIST));
  }

  private static String card(Treatment treatment, String label) {
    return NextVisit.of(treatment, new Examiner().examine(treatment, Written.ON)).stream()
        .filter(field -> field.label().equals(label))
        .findFirst()
        .orElseThrow()
        .value();
  }
}
