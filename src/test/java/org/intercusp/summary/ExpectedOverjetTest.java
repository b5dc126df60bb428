package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.finding.Figure;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** What overjet the published trial lets one expect, and where it says nothing. */
class ExpectedOverjetTest {

  private static final String NEXT = "next-visit-overjet";
  private static final String SO_FAR = "overjet-expected";

  /** Two active stages of unlike wear; the patient is in the second, at 12 h a day. */
  private static final String SECOND =
      """
      {"/stages/1": {"id": "S2", "kind": "active", "months": 3, "reviewWeeks": 6,
       "wearHours": 12, "goals": []}, "/reviews/3/stageId": "S2"}""";

  @Test
  void cardAndFigureTakeTheWearOfTheStageThePatientIsIn() {
    Treatment base = SampleTreatments.base();
    assertThat(figure(base, NEXT).value().shown()).isEqualTo("4.8");
    assertThat(card(base)).startsWith("about 4.8 mm");
    Treatment second = SampleTreatments.changed(SECOND);
    assertThat(figure(second, NEXT).value().shown()).isEqualTo("4.6");
    assertThat(card(second)).startsWith("about 4.6 mm");
    assertThat(figure(second, SO_FAR).value().shown()).isEqualTo("5.4");
  }

  @Test
  void outsideOfTheActivePhaseNothingIsExpected() {
    for (String stage : new String[] {"S2", "S3"}) {
      Treatment past = SampleTreatments.changed("{\"/reviews/3/stageId\": \"" + stage + "\"}");
      assertThat(figure(past, NEXT).value()).isNull();
      assertThat(figure(past, NEXT).note()).isEqualTo("the active stage is over");
      assertThat(card(past)).isEqualTo("none: the active stage is over");
    }
  }

  /** Fitted on 2025-09-01: the visit of 24 August falls into the trial's year. */
  @Test
  void theTrialSaysNothingPastItsTwelveMonths() {
    Treatment within = fitted("2025-09-01");
    assertThat(figure(within, NEXT).value().shown()).isEqualTo("1.7");
    Treatment past = fitted("2025-08-01");
    assertThat(figure(past, NEXT).value()).isNull();
    assertThat(figure(past, NEXT).note()).isEqualTo("the trial measured 12 months");
    assertThat(card(past)).isEqualTo("none: the trial measured 12 months");
    assertThat(figure(past, SO_FAR).value().shown()).isEqualTo("1.9");
    assertThat(figure(fitted("2025-07-01"), SO_FAR).note())
        .isEqualTo("the trial measured 12 months");
  }

  @Test
  void withoutHoursThereIsNoGroup() {
    Treatment none = SampleTreatments.changed("{\"/stages/0/wearHours\": null}");
    assertThat(figure(none, NEXT).note()).isEqualTo("no wearHours of the active stage");
    assertThat(card(none)).isEqualTo("none: no wearHours of the active stage");
  }

  private static Treatment fitted(String day) {
    return SampleTreatments.changed(
        "{\"/bites/0/recordedOn\": \"2025-06-01\", \"/appliances/0/orderedOn\": \"2025-06-02\","
            + " \"/appliances/0/fittedOn\": \""
            + day
            + "\"}");
  }

  private static Examination examined(Treatment treatment) {
    return new Examiner().examine(treatment, treatment.asOf());
  }

  private static Figure figure(Treatment treatment, String name) {
    return examined(treatment).figures().stream()
        .filter(figure -> figure.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static String card(Treatment treatment) {
    return NextVisit.of(treatment, examined(treatment)).stream()
        .filter(field -> field.label().equals("Expected overjet"))
        .findFirst()
        .orElseThrow()
        .value();
  }
}
