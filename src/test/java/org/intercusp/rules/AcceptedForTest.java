package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What was accepted is no longer once the thing it was given for is another. */
class AcceptedForTest {

  private static final String ACRYLIC =
      "\"/patient/allergies\": [\"%s\"], \"/appliances/0/material\": \"%s\"";

  private static final String CLASS =
      "\"/diagnosis/incisorClass\": \"%s\", \"/diagnosis/overjet\": %s";

  @ParameterizedTest
  @CsvSource({
    "acrylic, heat-cured acrylic, acrylic, heat-cured acrylic, true",
    "acrylic, heat-cured acrylic, acrylic, Heat-cured  Acrylic, true",
    "acrylic, heat-cured acrylic, Acrylic, heat-cured acrylic, true",
    "acrylic, heat-cured acrylic, acrylic, 'cold-cured acrylic, self-polymerising', false",
    "acrylic, heat-cured acrylic, 'acrylic, severe', heat-cured acrylic, false"
  })
  void anAcrylicForAPatientAllergicToIt(
      String allergy, String material, String allergyNow, String materialNow, boolean accepted) {
    assertThat(
            accepted(
                "appliance-allergy",
                ACRYLIC.formatted(allergy, material),
                ACRYLIC.formatted(allergyNow, materialNow)))
        .isEqualTo(accepted);
  }

  @ParameterizedTest
  @CsvSource({
    "I, -1, I, -1.0, true",
    "I, -1, II/1, -1, false",
    "I, -1, I, -2, false",
    "II/1, -1, I, -1, false"
  })
  void aClassThatTheOverjetSpeaksAgainst(
      String given, String overjet, String now, String overjetNow, boolean accepted) {
    assertThat(
            accepted(
                "diagnosis-class",
                CLASS.formatted(given, overjet),
                CLASS.formatted(now, overjetNow)))
        .isEqualTo(accepted);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          "/stages/2": null | true
          "/stages/2": null, "/stages/0/kind": "support" | false
          "/stages/1/kind": "retention" | false
          """)
  void stagesInAnOrderThatIsNotUsual(String now, boolean accepted) {
    assertThat(accepted("stage-order", "\"/stages/2\": null", now)).isEqualTo(accepted);
  }

  /** Whether what is found after one change is answered by an acceptance given after another. */
  private static boolean accepted(String code, String given, String now) {
    Finding finding = judged(code, given).get(0).finding();
    String acceptance =
        """
        , "/acceptances": [{"finding": "%s", "subject": "%s", "values": {%s},
         "reason": "patch test negative", "by": {"identifier":
         {"system": "https://harbourlane.example/id", "value": "P-07"},
         "family": "Winterbourne"}, "on": "2026-07-20"}]"""
            .formatted(
                code,
                finding.subject(),
                finding.values().entrySet().stream()
                    .map(each -> "\"%s\": %s".formatted(each.getKey(), each.getValue().value()))
                    .collect(Collectors.joining(", ")));
    List<Judged> after = judged(code, now + acceptance);
    assertThat(after).isNotEmpty();
    return after.get(0).accepted();
  }

  private static List<Judged> judged(String code, String changes) {
    Treatment treatment = SampleTreatments.changed("{" + changes + "}");
    return new Examiner()
        .examine(treatment, treatment.asOf()).findings().stream()
            .filter(each -> each.finding().code().equals(code))
            .filter(each -> !each.finding().values().isEmpty())
            .toList();
  }
}
