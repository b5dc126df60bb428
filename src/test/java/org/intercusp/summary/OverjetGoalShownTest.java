package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.finding.Figure;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.summary.drawing.OverjetChart;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** Which goal of the overjet is shown, and on what day it is reached, the same everywhere. */
class OverjetGoalShownTest {

  private static final String OVERJET =
      "{\"measure\": \"overjet\", \"comparator\": \"%s\", \"target\": %s}";

  /** 5 mm in the first active stage, 2.5 mm in the second, which the patient is in. */
  private static final String SECOND =
      """
      {"/stages/0/goals": [%s], "/stages/1": {"id": "S2", "kind": "active", "months": 3,
       "reviewWeeks": 6, "wearHours": 22, "goals": [%s]}, "/reviews/3/stageId": "%s"}""";

  private static String second(String stage) {
    return SECOND.formatted(goal("le", "5"), goal("le", "2.5"), stage);
  }

  private static String goal(String comparator, String target) {
    return OVERJET.formatted(comparator, target);
  }

  @Test
  void theGoalIsThatOfTheStageThePatientIsIn() {
    Treatment second = SampleTreatments.changed(second("S2"));
    assertThat(chart(second)).contains("the goal of 2.5 mm is reached 2026-10-0");
    assertThat(figure(second).value().shown()).startsWith("2026-10-0");
    Treatment first =
        SampleTreatments.changed(second("S1").replace("\"target\": 5", "\"target\": 4"));
    assertThat(chart(first)).contains("the goal of 4 mm is reached 2026-0");
  }

  @Test
  void ofTwoBoundsTheUpperOneIsTheGoal() {
    Treatment both =
        SampleTreatments.changed(
            "{\"/stages/0/goals\": [" + goal("ge", "0") + ", " + goal("le", "2.5") + "]}");
    assertThat(chart(both)).contains("the goal of 2.5 mm is reached 2026-10-0");
    assertThat(figure(both).value().shown()).startsWith("2026-10-0");
    Treatment lower = SampleTreatments.changed("{\"/stages/0/goals\": [" + goal("ge", "0") + "]}");
    assertThat(chart(lower)).contains("No overjet goal is set");
    assertThat(figure(lower).note()).isEqualTo("no overjet goal of the active stage");
  }

  /** A lower bound that is met says nothing of the goal that trimming waits for. */
  @Test
  void trimmingWaitsForTheUpperBound() {
    Treatment waiting =
        SampleTreatments.changed(
            "{\"/diagnosis/overbite\": 3, \"/stages/0/goals\": ["
                + goal("ge", "0")
                + ", "
                + goal("le", "2.5")
                + "]}");
    assertThat(
            NextVisit.of(waiting, examined(waiting, Written.ON)).stream()
                .filter(field -> field.label().equals("Trim"))
                .findFirst()
                .orElseThrow()
                .value())
        .isEqualTo("nothing: not before the overjet goal is reached");
  }

  @Test
  void aDayThatIsPastIsNotGiven() {
    Treatment plateau = SampleTreatments.changed(plateau());
    LocalDate on = LocalDate.parse("2026-10-12");
    String chart = OverjetChart.svg(plateau, on).orElseThrow();
    assertThat(chart)
        .contains("No day projected for the goal of 2.5 mm: the course has left its line")
        .doesNotContain("is reached 2026");
    Figure figure = figure(examined(plateau, on));
    assertThat(figure.value()).isNull();
    assertThat(figure.note()).startsWith("the course has left its line");
  }

  private static String plateau() {
    StringBuilder all =
        new StringBuilder("{\"/stages/0/goals\": [" + goal("le", "2.5") + "], \"/reviews\": [");
    String[] overjets = {"6", "4", "3.2", "3.1", "3", "3"};
    for (int i = 0; i < overjets.length; i++) {
      all.append(i == 0 ? "" : ",")
          .append("{\"id\": \"R")
          .append(i + 1)
          .append("\", \"date\": \"")
          .append(LocalDate.parse("2026-03-16").plusDays(42L * i))
          .append("\", \"stageId\": \"S1\", \"seenBy\": \"A\", \"kind\": \"planned\",")
          .append(" \"overjet\": ")
          .append(overjets[i])
          .append(", \"overbite\": 3, \"molarRelation\": {\"right\": 1, \"left\": 1}}");
    }
    return all.append("]}").toString();
  }

  @Test
  void aGoalThatIsReachedHasNoDay() {
    Treatment reached = SampleTreatments.changed("{\"/reviews/3/overjet\": 2}");
    assertThat(chart(reached)).contains("Goal of 2 mm reached");
    assertThat(figure(reached).value()).isNull();
    assertThat(figure(reached).note()).isEqualTo("the goal of 2 mm is reached");
  }

  /** What was reached in the active stage is still told, what was not is not projected. */
  @Test
  void nothingIsProjectedOnceTheActiveStageIsOver() {
    Treatment support = SampleTreatments.changed("{\"/reviews/3/stageId\": \"S2\"}");
    assertThat(chart(support))
        .contains("No day projected for the goal of 2 mm: the active stage is over");
    assertThat(figure(support).note()).isEqualTo("the active stage is over");
    Treatment ended =
        SampleTreatments.changed(
            """
            {"/completion": {"status": "patient-stopped", "reason": "non-wear",
             "decidedOn": "2026-07-20", "lastAttendedOn": "2026-07-13"}}""");
    assertThat(figure(ended).note()).isEqualTo("treatment has ended");
  }

  private static String chart(Treatment treatment) {
    return OverjetChart.svg(treatment, Written.ON).orElseThrow();
  }

  private static Figure figure(Treatment treatment) {
    return figure(examined(treatment, Written.ON));
  }

  private static Figure figure(Examination examination) {
    return examination.figures().stream()
        .filter(figure -> figure.name().equals("overjet-goal-on"))
        .findFirst()
        .orElseThrow();
  }

  private static Examination examined(Treatment treatment, LocalDate on) {
    return new Examiner().examine(treatment, on);
  }
}
