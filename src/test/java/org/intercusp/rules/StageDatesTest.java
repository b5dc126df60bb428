package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.analysis.stage.ActivePhase;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.treatment.Stage;
import org.junit.jupiter.api.Test;

/** Stage dates from fitting and lengths, and the next review, on the base of the samples. */
class StageDatesTest {

  @Test
  void stagesFollowFromTheFitting() {
    var dates = StageDates.of(SampleTreatments.changed("{\"/stages/0/startsOn\": null}"));
    assertThat(dates)
        .extracting(of -> of.result().orElseThrow().start().toString())
        .containsExactly("2026-02-24", "2026-11-24", "2027-03-24");
    assertThat(dates.get(2).result().orElseThrow().end()).isEqualTo("2027-12-24");
    assertThat(dates).allMatch(of -> !of.result().orElseThrow().stated());
  }

  @Test
  void withoutFittingOrStartThereAreNoDates() {
    var dates =
        StageDates.of(
            SampleTreatments.changed(
                "{\"/stages/0/startsOn\": null, \"/appliances/0/fittedOn\": null}"));
    assertThat(dates).allMatch(of -> of.reason().contains("no date an appliance was fitted"));
  }

  @Test
  void theStageOfADayEndsBeforeTheNextBegins() {
    var treatment = SampleTreatments.base();
    assertThat(on("2026-02-23")).isEqualTo("none");
    assertThat(on("2026-11-23")).isEqualTo("S1");
    assertThat(on("2026-11-24")).isEqualTo("S2");
    assertThat(StageDates.on(treatment, LocalDate.parse("2027-12-24"))).isEmpty();
  }

  @Test
  void theNextReviewIsTheStatedOneElseTheIntervalElseTenToFourteenDays() {
    assertThat(next("{}").by()).isEqualTo("2026-08-24");
    assertThat(next("{\"/reviews/3/nextReviewOn\": null}").by()).isEqualTo("2026-08-24");
    assertThat(next("{\"/reviews/3/nextReviewOn\": null, \"/stages/0/reviewWeeks\": 8}").by())
        .isEqualTo("2026-09-07");
    NextReview first = next("{\"/reviews\": []}");
    assertThat(first.from()).isEqualTo("2026-03-06");
    assertThat(first.by()).isEqualTo("2026-03-10");
  }

  @Test
  void ofTwoReviewsOnOneDayTheLaterInTheRecordIsTheLast() {
    String same = "\"/reviews/3/date\": \"2026-06-01\"";
    assertThat(next("{" + same + "}").after().orElseThrow().id()).isEqualTo("R4");
    assertThat(next("{" + same + ", \"/reviews/2/nextReviewOn\": \"2026-07-01\"}").by())
        .isEqualTo("2026-08-24");
    assertThat(SampleTreatments.changed("{" + same + "}").lastReview().orElseThrow().id())
        .isEqualTo("R4");
  }

  /** Fitted on 24 February, while the plan begins a week later. */
  @Test
  void theActivePhaseBeginsWithTheFitting() {
    String before =
        "{\"/stages/0/startsOn\": \"2026-03-03\", \"/reviews\": [], \"/stages/0/kind\": \"%s\"}";
    assertThat(active(before.formatted("active"), "2026-02-25")).isEqualTo("S1");
    assertThat(active(before.formatted("active"), "2026-03-03")).isEqualTo("S1");
    assertThat(active(before.formatted("support"), "2026-02-25")).isEqualTo("no active stage");
    assertThat(active("{\"/reviews\": []}", "2026-11-23")).isEqualTo("S1");
    assertThat(active("{\"/reviews\": []}", "2026-11-24")).isEqualTo("the active stage is over");
    assertThat(active("{\"/reviews\": []}", "2027-12-24"))
        .as("past the whole plan")
        .isEqualTo("the active stage is over");
  }

  private static String active(String changes, String day) {
    var stage = ActivePhase.on(SampleTreatments.changed(changes), LocalDate.parse(day));
    return stage.map(Stage::id).result().orElse(stage.reason());
  }

  private static NextReview next(String changes) {
    return NextReview.of(SampleTreatments.changed(changes)).result().orElseThrow();
  }

  private static String on(String day) {
    return StageDates.on(SampleTreatments.base(), LocalDate.parse(day))
        .map(dates -> dates.stage().id())
        .orElse("none");
  }
}
