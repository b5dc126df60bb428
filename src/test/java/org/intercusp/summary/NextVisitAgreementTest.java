package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Map;
import org.intercusp.finding.Figure;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.rules.rule.Limits;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The card of the page and the figures of the examination say the same of the next visit. */
class NextVisitAgreementTest {

  private static final String AFTER_THE_GOAL = "not before the overjet goal is reached";

  @ParameterizedTest
  @CsvSource({
    "/diagnosis/overbite, 3",
    "/bites/0/overbiteHabitual, 3",
    "/bites/0/overbiteHabitual, 1.1",
    "/diagnosis/overbite, 3.9"
  })
  void aMiddlingOverbiteWaitsForTheOverjetGoal(String member, String overbite) {
    String middling = "\"%s\": %s".formatted(member, overbite);
    Treatment waiting = SampleTreatments.changed("{" + middling + "}");
    assertThat(figure(waiting, "next-visit-trim").value()).isNull();
    assertThat(figure(waiting, "next-visit-trim").note()).isEqualTo(AFTER_THE_GOAL);
    assertThat(card(waiting, "Trim")).isEqualTo("nothing: " + AFTER_THE_GOAL);
    Treatment there = SampleTreatments.changed("{" + middling + ", \"/reviews/3/overjet\": 2}");
    assertThat(figure(there, "next-visit-trim").value().shown()).isEqualTo("1.5");
    assertThat(card(there, "Trim")).startsWith("1.5 mm off");
    assertThat(figure(there, "trimming-visits").value().shown())
        .startsWith("counted from the review that meets the overjet goal: week 6: 1.5 mm; week 12");
    assertThat(figure(there, "molars-meet-week").note())
        .startsWith("counted from the review that meets the overjet goal; eruption");
    assertThat(figure(SampleTreatments.base(), "molars-meet-week").note()).startsWith("eruption");
  }

  @Test
  void trimmingEndsWhenTheOverbiteHasGone() {
    Treatment gone = SampleTreatments.changed("{\"/reviews/3/overbite\": 1}");
    assertThat(figure(gone, "next-visit-trim").note()).isEqualTo("no trimming with this overbite");
    assertThat(card(gone, "Trim")).isEqualTo("nothing: never: keep all posterior contact");
  }

  @Test
  void aDeepBiteThatHasComeBelowFourIsTrimmedOnUntilTheMolarsMeet() {
    Treatment under = SampleTreatments.changed("{\"/reviews/3/overbite\": 2}");
    assertThat(figure(under, "next-visit-trim").value().shown()).isEqualTo("0.5");
    assertThat(card(under, "Trim")).startsWith("0.5 mm off");
  }

  @Test
  void anUrgentVisitTakesNoPlaceInThePlan() {
    Treatment urgent = SampleTreatments.changed("{\"/reviews/1/kind\": \"urgent\"}");
    assertThat(card(urgent, "Trim")).contains("visit 4 of the trimming plan");
  }

  @Test
  void turnsOfAnEarlierApplianceAreNotCounted() {
    Treatment second =
        SampleTreatments.changed(
            """
            {"/appliances/0/fittedOn": "2026-04-20", "/reviews/0/screwTurns": 10,
             "/reviews/1/screwTurns": 3, "/appliances/0/screw":
             {"arch": "upper", "turn": 0.25, "plannedTurns": 14, "daysPerTurn": 7}}""");
    assertThat(figure(second, "next-visit-turns").value().shown()).isEqualTo("6");
    assertThat(card(second, "Screw")).startsWith("11 of 14 quarter turns left");
  }

  @Test
  void turnsAreCountedFromTheLastVisitWhateverDayTheRecordSpeaksOf() {
    assertThat(turns("{}")).isEqualTo("6");
    assertThat(turns("{\"/asOf\": \"2026-08-20\"}")).isEqualTo("6");
    assertThat(turns("{\"/reviews/3/screwTurns\": 11}")).isEqualTo("3");
  }

  /** Fitted on 20 July after the visit of the 13th, next visit on 24 August: five weeks. */
  @Test
  void turnsOfANewApplianceAreCountedFromItsFitting() {
    assertThat(turns("{\"/asOf\": \"2026-07-25\", \"/appliances/0/fittedOn\": \"2026-07-20\"}"))
        .isEqualTo("5");
  }

  @Test
  void beforeTheFirstVisitTurnsAreCountedFromTheFitting() {
    String fitted = "\"/appliances/0/fittedOn\": \"2026-07-13\", \"/reviews\": []";
    assertThat(turns("{\"/asOf\": \"2026-07-13\", " + fitted + "}")).isEqualTo("2");
    assertThat(turns("{\"/asOf\": \"2026-07-25\", " + fitted + "}")).isEqualTo("2");
  }

  /** The visit of 13 July tells of the screw worn until then, and the second one is fitted then. */
  @Test
  void whatAVisitTellsOnTheDayOfFittingIsOfTheScrewBefore() {
    String second =
        """
        {"/reviews/3/screwTurns": 11, "/appliances/-": {"id": "A2", "type": "twin-block",
         "biteId": "B1", "orderedOn": "2026-07-01", "fittedOn": "2026-07-13", "clasps": [],
         "incisalCapping": false, "material": "acrylic", "screw":
         {"arch": "upper", "turn": 0.25, "plannedTurns": 14, "daysPerTurn": 7}}}""";
    assertThat(turns(second)).isEqualTo("6");
    assertThat(card(SampleTreatments.changed(screw(second)), "Screw"))
        .startsWith("14 of 14 quarter turns left");
  }

  private static String turns(String changes) {
    return figure(SampleTreatments.changed(screw(changes)), "next-visit-turns").value().shown();
  }

  /** With a screw of 14 turns, one a week. */
  private static String screw(String changes) {
    return """
        {"/appliances/0/screw":
         {"arch": "upper", "turn": 0.25, "plannedTurns": 14, "daysPerTurn": 7}"""
        + (changes.equals("{}") ? "}" : ", " + changes.substring(1));
  }

  /**
   * Two millimetres are within the safe bounds of the limit; the base has 2 mm at its last review.
   */
  @Test
  void aClinicThatTrimsLaterIsToldByItsOwnLimit() {
    Treatment treatment = SampleTreatments.changed("{\"/reviews/3/overbite\": 1.8}");
    assertThat(card(treatment, "Trim")).startsWith("0.5 mm off");
    Examiner careful = new Examiner(Limits.named(Map.of("trim-overbite", new BigDecimal("2"))));
    Examination examination = careful.examine(treatment, treatment.asOf());
    assertThat(figure(examination, "next-visit-trim").value()).isNull();
    assertThat(figure(examination, "trimming").usual()).contains("2 or less never");
    assertThat(card(treatment, examination, "Trim"))
        .isEqualTo("nothing: never: keep all posterior contact");
  }

  @Test
  void moreThanIsTakenAtAVisitIsTold() {
    String asked = "{\"/stages/0/trimming/perVisit\": %s}";
    assertThat(figure(SampleTreatments.changed(asked.formatted(2)), "trimming-visits").note())
        .isNull();
    assertThat(figure(SampleTreatments.changed(asked.formatted(2.5)), "trimming-visits").note())
        .isEqualTo("more than 2 mm a visit counts as that");
  }

  private static Figure figure(Treatment treatment, String name) {
    return figure(new Examiner().examine(treatment, treatment.asOf()), name);
  }

  private static Figure figure(Examination examination, String name) {
    return examination.figures().stream()
        .filter(figure -> figure.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static String card(Treatment treatment, String label) {
    return card(treatment, new Examiner().examine(treatment, treatment.asOf()), label);
  }

  private static String card(Treatment treatment, Examination examination, String label) {
    return NextVisit.of(treatment, examination).stream()
        .filter(field -> field.label().equals(label))
        .findFirst()
        .orElseThrow()
        .value();
  }
}
