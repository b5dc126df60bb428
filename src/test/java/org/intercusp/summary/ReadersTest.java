package org.intercusp.summary;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** What a technician, a family and whoever has to call the clinic look for on their sheets. */
class ReadersTest {

  /** What an appliance has not is not missing from its prescription. */
  @Test
  void aRetainerAsksForNoBlocksAndNoIncline() {
    String retainer =
        Written.text(
            Written.html(
                SampleTreatments.changed(
                    """
                    {"/appliances/-": {"id": "A2", "type": "retainer", "orderedOn": "2026-07-01",
                     "clasps": [], "incisalCapping": false, "material": "acrylic"}}"""),
                Audience.LABORATORY));
    assertThat(retainer)
        .contains("Appliance A2", "Labial bow")
        .doesNotContain("Block height")
        .doesNotContain("Incline");
    String plate =
        Written.text(
            Written.html(
                SampleTreatments.changed(
                    """
                    {"/appliances/-": {"id": "A2", "type": "anterior-inclined-plane",
                     "orderedOn": "2026-07-01", "clasps": [], "incisalCapping": false,
                     "material": "acrylic"}}"""),
                Audience.LABORATORY));
    assertThat(plate).contains("Incline, occlusal plane").doesNotContain("Block height");
  }

  @Test
  void oneTurnIsNotTurns() {
    Treatment once =
        SampleTreatments.changed(
            """
            {"/appliances/0/screw":
             {"arch": "upper", "turn": 0.25, "plannedTurns": 1, "daysPerTurn": 7}}""");
    assertThat(Written.text(Written.html(once, Audience.LABORATORY)))
        .contains("0.25 mm a quarter turn, 1 turn, one every 7 days");
  }

  @Test
  void theLaboratoryReadsHowTheModelsStandInTheBite() {
    Treatment moved =
        SampleTreatments.changed(
            "{\"/bites/0/lowerMidlineHabitual\": -1.5, \"/bites/0/lowerMidlineInBite\": 1,"
                + " \"/bites/0/crossbiteInBite\": true}");
    assertThat(Written.text(Written.html(moved, Audience.LABORATORY)))
        .containsPattern("Overjet in the bite\\s+\\d")
        .containsPattern("Forward of habitual\\s+\\d")
        .containsPattern("Lower midline, bite\\s+1 mm to the patient's right")
        .containsPattern("Lower midline, habitual\\s+1.5 mm to the patient's left")
        .containsPattern("Crossbite in the bite\\s+yes");
    Treatment level =
        SampleTreatments.changed(
            "{\"/bites/0/lowerMidlineHabitual\": 0, \"/bites/0/lowerMidlineInBite\": null}");
    assertThat(Written.text(Written.html(level, Audience.LABORATORY)))
        .containsPattern("Lower midline, bite\\s+not recorded")
        .containsPattern("Lower midline, habitual\\s+on the upper");
  }

  /** With the usual number of clasps; what the bite says stands beside their list. */
  @Test
  void theLaboratorySheetWithEightClaspsIsOnePage() throws Exception {
    Treatment treatment =
        SampleTreatments.changed(
            "{\"/appliances/0/clasps\": ["
                + "{\"tooth\": \"16\", \"kind\": \"adams\", \"wire\": 0.7}, "
                + "{\"tooth\": \"26\", \"kind\": \"adams\", \"wire\": 0.7}, "
                + "{\"tooth\": \"14\", \"kind\": \"delta\", \"wire\": 0.7}, "
                + "{\"tooth\": \"24\", \"kind\": \"delta\", \"wire\": 0.7}, "
                + "{\"tooth\": \"34\", \"kind\": \"delta\", \"wire\": 0.7}, "
                + "{\"tooth\": \"44\", \"kind\": \"delta\", \"wire\": 0.7}, "
                + "{\"tooth\": \"31\", \"kind\": \"ball-ended\", \"wire\": 0.7}, "
                + "{\"tooth\": \"41\", \"kind\": \"ball-ended\", \"wire\": 0.7}"
                + "], \"/clinic/contact\": \"+44 1632 960100\", \"/appliances/0/statement\": \""
                + "Made for this patient alone, to the clinic's prescription; conforms to the"
                + " requirements that apply to custom-made devices.\"}");
    assertThat(Written.pages(Written.pdf(treatment, Audience.LABORATORY))).isEqualTo(1);
  }

  /** A number stays whole at the end of a line and behind a name from right to left. */
  @Test
  void howToReachTheClinicStandsOnALineOfItsOwn() throws Exception {
    Treatment arabic =
        SampleTreatments.changed(
            "{\"/clinic/name\": \"\\u0639\\u064a\\u0627\\u062f\\u0629\","
                + " \"/clinic/contact\": \"+44 1632 960100\"}");
    for (Audience audience : Audience.values()) {
      assertThat(Written.text(Written.pdf(arabic, audience))).contains("+44 1632 960100");
      assertThat(Written.html(arabic, audience)).doesNotContain(", +44");
    }
  }

  /** The paper's font has no Han letters, and prints a sign for each. */
  @Test
  void paperSaysWhereItLacksLetters() throws Exception {
    Treatment han = SampleTreatments.changed("{\"/patient/allergies\": [\"\\u93b3\"]}");
    String sign = "stands as #";
    for (Audience audience : List.of(Audience.DENTIST, Audience.LABORATORY)) {
      assertThat(Written.text(Written.pdf(han, audience)).replaceAll("\\s+", " ")).contains(sign);
      assertThat(Written.html(han, audience)).contains("\u93b3").doesNotContain(sign);
    }
    Treatment named = SampleTreatments.changed("{\"/patient/family\": \"\\u6b50\\u967d\"}");
    assertThat(Written.text(Written.pdf(named, Audience.PATIENT)).replaceAll("\\s+", " "))
        .contains("Each one is shown as #");
    Treatment printed =
        SampleTreatments.changed(
            "{\"/patient/allergies\": [\"nichel, \\u043d\\u0438\\u043a\\u0435\\u043b\\u044c\"],"
                + " \"/patient/family\": \"\\u05dc\\u05d5\\u05d9 \\u0645\\u062d\\u0645\\u062f\"}");
    assertThat(Written.text(Written.pdf(printed, Audience.DENTIST))).doesNotContain(sign);
  }

  @Test
  void theFamilyReadsHowOftenToTurnTheScrew() {
    String screw =
        "{\"/appliances/0/screw\": {\"arch\": \"upper\", \"turn\": 0.25, \"plannedTurns\": %d,"
            + " \"daysPerTurn\": %d}}";
    assertThat(family(screw.formatted(14, 3))).contains("Turn the screw once every 3 days");
    assertThat(family(screw.formatted(14, 1))).contains("Turn the screw once a day");
    assertThat(family(screw.formatted(0, 3))).doesNotContain("screw");
    assertThat(family("{}")).doesNotContain("screw");
    assertThat(
            Written.text(
                Written.html(
                    SampleTreatments.changed(screw.formatted(14, 1)), Audience.LABORATORY)))
        .contains("14 turns, one a day");
  }

  private static String family(String changes) {
    return Written.text(Written.html(SampleTreatments.changed(changes), Audience.PATIENT));
  }

  @Test
  void aFamilyReadsHoursAsItsLanguageWritesThem() {
    Treatment half = SampleTreatments.changed("{\"/stages/0/wearHours\": 12.50}");
    assertThat(Written.text(Written.html(half, Audience.PATIENT))).contains("12.5 hours");
    String german =
        new String(Written.bytes(half, Audience.PATIENT, Form.HTML, Locale.GERMAN), UTF_8);
    assertThat(Written.text(german)).contains("12,5 Stunden").doesNotContain("12.5");
  }

  /**
   * A summary of a day says nothing of what came after it, and names the film that is last then.
   */
  @Test
  void whatToWatchIsOfTheDayOfTheSummary() {
    String harm =
        "\"adverseEvents\": [{\"code\": \"%s\", \"severity\": \"mild\", \"serious\": false,"
            + " \"suspectedAppliance\": false, \"onsetOn\": \"%s\"}]";
    String review =
        "{\"id\": \"%s\", \"date\": \"%s\", \"stageId\": \"S1\", \"seenBy\": \"A\", \"kind\":"
            + " \"planned\", \"overjet\": 7, \"overbite\": 3,"
            + " \"molarRelation\": {\"right\": 1, \"left\": 1}, %s}";
    String film =
        "{\"id\": \"%s\", \"takenOn\": \"%s\", \"jaw\": \"habitual\", \"landmarks\": {\"Me\":"
            + " [0, 0], \"Go\": [-70, 0], \"Li\": [5, 40], \"Lia\": [%s, 20]}%s}";
    Treatment treatment =
        SampleTreatments.changed(
            "{\"/reviews\": ["
                + review.formatted("R1", "2026-05-01", harm.formatted("ulcer", "2026-04-30"))
                + ", "
                + review.formatted("R2", "2026-08-01", harm.formatted("caries", "2026-07-30"))
                + "], \"/films\": ["
                + film.formatted("F1", "2026-07-01", "5", "")
                + ", "
                + film.formatted("F1b", "2026-07-01", "0", ", \"repeatOf\": \"F1\"")
                + ", "
                + film.formatted("F2", "2026-08-01", "-5", "")
                + "]}");
    assertThat(Written.text(Written.html(treatment, Audience.DENTIST)).replaceAll("\\s+", " "))
        .contains("Events during treatment: ulcer.")
        .contains("L1-Md 90")
        .contains("on the last film");
  }
}
