package org.intercusp.worklist;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.junit.jupiter.api.Test;

/** The goal in the list is the one the chart of the treatment shows. */
class JudgingTest {

  private static final String GOAL =
      "{\"measure\": \"overjet\", \"comparator\": \"%s\", \"target\": %s}";

  @Test
  void theGoalIsTheUpperBoundOfTheStageThePatientIsIn() {
    String stages =
        """
        {"/stages/0/goals": [%s], "/stages/1": {"id": "S2", "kind": "active", "months": 3,
         "reviewWeeks": 6, "wearHours": 22, "goals": [%s, %s]}, "/reviews/3/stageId": "%s"}""";
    String first =
        stages.formatted(
            GOAL.formatted("le", "5"),
            GOAL.formatted("ge", "0"),
            GOAL.formatted("le", "2.5"),
            "S1");
    assertThat(target(first)).isEqualTo("5.000");
    assertThat(
            target(
                first.replace("\"/reviews/3/stageId\": \"S1\"", "\"/reviews/3/stageId\": \"S2\"")))
        .isEqualTo("2.500");
  }

  private static String target(String changes) {
    Treatment treatment = SampleTreatments.changed(changes);
    StoredTreatment stored =
        new StoredTreatment(
            TreatmentKey.of(treatment),
            1,
            Instant.parse("2026-07-20T09:00:00Z"),
            "digest",
            new String(
                new TreatmentWriter().write(treatment), java.nio.charset.StandardCharsets.UTF_8));
    Entry entry =
        new Judging(new TreatmentReader(), Limits.USUAL).of(stored, LocalDate.parse("2026-07-20"));
    return String.valueOf(entry.overjetTarget());
  }
}
