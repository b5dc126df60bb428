package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** An answer to one harm is an answer to that harm as it was, and to no other. */
class HarmAcceptanceTest {

  private static final String MILD = event("mild", true, true, "2026-07-01");

  @Test
  void theEventThatWasAcceptedIs() {
    assertThat(judged(MILD, accepted(MILD))).extracting(Judged::accepted).containsExactly(true);
  }

  @Test
  void anotherEventOfTheSameKindIsNot() {
    String severe = event("severe", true, true, "2026-07-12");
    assertThat(judged(MILD + "," + severe, accepted(MILD)))
        .extracting(Judged::accepted)
        .containsExactly(true, false);
    assertThat(judged(MILD + "," + MILD, accepted(MILD)))
        .extracting(Judged::accepted)
        .containsExactly(true, false);
  }

  @ParameterizedTest
  @CsvSource({
    "severe, true, true, 2026-07-01",
    "mild, false, true, 2026-07-01",
    "mild, true, false, 2026-07-01",
    "mild, true, true, 2026-07-12"
  })
  void norIsTheSameOneOnceItReadsOtherwise(
      String severity, boolean serious, boolean suspected, String onset) {
    String later = event(severity, serious, suspected, onset);
    assertThat(judged(later, accepted(MILD))).extracting(Judged::accepted).containsExactly(false);
  }

  private static String event(String severity, boolean serious, boolean suspected, String onset) {
    return """
        {"code": "fragment-swallowed", "severity": "%s", "serious": %s,
         "suspectedAppliance": %s, "onsetOn": "%s"}"""
        .formatted(severity, serious, suspected, onset);
  }

  /** An acceptance of what is found of an event that stands alone. */
  private static String accepted(String event) {
    Map<String, BigDecimal> values =
        judged(event, "").get(0).finding().values().entrySet().stream()
            .collect(Collectors.toMap(Map.Entry::getKey, each -> each.getValue().value()));
    return """
        , "/acceptances": [{"finding": "review-harm", "subject": "R4", "values": {%s},
         "reason": "X-ray clear, passed", "by": {"identifier":
         {"system": "https://harbourlane.example/id", "value": "P-07"},
         "family": "Winterbourne"}, "on": "2026-07-20"}]"""
        .formatted(
            values.entrySet().stream()
                .map(each -> "\"%s\": %s".formatted(each.getKey(), each.getValue()))
                .collect(Collectors.joining(", ")));
  }

  private static List<Judged> judged(String events, String acceptances) {
    Treatment treatment =
        SampleTreatments.changed(
            "{\"/reviews/3/adverseEvents\": [%s]%s}".formatted(events, acceptances));
    return new Examiner()
        .examine(treatment, treatment.asOf()).findings().stream()
            .filter(each -> each.finding().code().equals("review-harm"))
            .toList();
  }
}
