package org.intercusp.treatment.submission;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is refused, with which code and where. */
class SubmissionReaderTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 11, 1);

  static final String WHOLE =
      """
      {"format":"intercusp-outcome/1","kind":"case",
       "submitter":{"system":"https://a.example/s","value":"one"},"submission":"S-1","revision":2,
       "clinic":{"system":"https://a.example/c","value":"one"},"treatment":"T-1",
       "patient":{"system":"https://a.example/p","value":"P-1"},
       "consent":{"recordedOn":"2023-05-01"},
       "course":{"birthDate":"2011-03-29","sex":"male","appliance":"twin-block",
        "firstFittedOn":"2023-05-11","growthStage":"CS3","status":"patient-stopped",
        "reason":"non-wear","decidedOn":"2024-03-07","lastAttendedOn":"2024-02-01",
        "stageDays":{"active":301},"reviews":7,"wearReported":16.8,"wearMeasured":11,
        "breakages":1,"adverseEvents":[{"code":"ulcer","count":2,"serious":0}],
        "assessments":[{"phase":"start","date":"2023-04-28","overjet":9.5,"overbite":4,
         "par":{"upperAnterior":3,"lowerAnterior":8,"buccalRight":2,"buccalLeft":2,"overjet":4,
          "overbite":1,"centreline":0},
         "parAgain":{"upperAnterior":3,"lowerAnterior":7,"buccalRight":2,"buccalLeft":2,"overjet":4,
          "overbite":1,"centreline":0},
         "dhc":"5a","icon":{"aesthetic":6,"crowdingSpacing":1,"crossbite":0,"vertical":1,
          "buccalRight":2,"buccalLeft":2},"aesthetic":7},
         {"phase":"end","date":"2024-03-07","overjet":8}]}}
      """;

  private final SubmissionReader reader = new SubmissionReader();

  private List<Refusal> reasons(String text) {
    return reader.read(text.getBytes(UTF_8), TODAY) instanceof ReadSubmission.Refused refused
        ? refused.reasons()
        : List.of();
  }

  @Test
  void aWholeRecordComesBackAsItWas() {
    ReadSubmission read = reader.read(WHOLE.getBytes(UTF_8), TODAY);
    assertThat(read).isInstanceOf(ReadSubmission.Accepted.class);
    Submission submission = ((ReadSubmission.Accepted) read).submission();
    byte[] written = new SubmissionWriter().write(submission);
    assertThat(reader.read(written, TODAY)).isEqualTo(read);
    assertThat(new String(written, UTF_8))
        .isEqualTo(WHOLE.replaceAll("\n *", "").replace("\n", ""));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"wearMeasured\":11 | \"wearMeasured\":25 | out-of-range | /course/wearMeasured",
        "\"dhc\":\"5a\" | \"dhc\":\"6a\" | score-range | /course/assessments/0/dhc",
        "\"sex\":\"male\" | \"name\":\"Smith\" | unknown-member | /course/name",
        "\"count\":2,\"serious\":0 | \"count\":2,\"serious\":3 | record-state |"
            + " /course/adverseEvents/0/serious",
        "\"phase\":\"end\" | \"phase\":\"start\" | record-twice | /course/assessments/1/phase",
        "\"active\":301 | \"active\":340 | record-stages-too-long | /course/stageDays",
        "2011-03-29 | 2023-06-01 | record-date-order | /course/birthDate",
        "2024-02-01 | 2024-03-08 | record-date-order | /course/lastAttendedOn",
        "\"date\":\"2023-04-28\" | \"date\":\"2023-05-28\" | record-date-order |"
            + " /course/assessments/0/date",
        "\"recordedOn\":\"2023-05-01\" |"
            + " \"recordedOn\":\"2023-05-01\",\"withdrawnOn\":\"2024-05-01\" | record-consent |"
            + " /consent/withdrawnOn",
        "\"kind\":\"case\" | \"kind\":\"withdrawal\" | record-consent | /consent/withdrawnOn",
        "patient-stopped | completed | record-state | /course/reason",
        "patient-stopped | unknown | record-state | /course/reason",
        "patient-stopped | unknown | record-state | /course/decidedOn",
        "\"submission\":\"S-1\" | \"submission\":\"..\" | out-of-range | /submission",
        "\"treatment\":\"T-1\" | \"treatment\":\".\" | out-of-range | /treatment",
        "\"revision\":2 | \"revision\":0 | out-of-range | /revision",
        "\"revision\":2 | \"submission\":\"S-1\" | duplicate-member | /submission",
        "2023-05-11 | 2023-02-29 | not-a-date | /course/firstFittedOn",
        "\"format\" | format | not-json | ``"
      })
  void aSlipIsToldWithItsPlace(String from, String to, String code, String pointer) {
    assertThat(WHOLE).contains(from);
    assertThat(reasons(WHOLE.replace(from, to)))
        .extracting(Refusal::code, reason -> reason.at().text())
        .contains(org.assertj.core.groups.Tuple.tuple(code, pointer == null ? "" : pointer));
  }

  @Test
  void aReasonNeverRepeatsWhatStandsThere() {
    Map<String, String> planted =
        Map.of(
            "\"male\"", "\"Evelyn Marsh\"",
            "2011-03-29", "1987-13-13",
            "\"breakages\":1", "\"breakages\":87654");
    planted.forEach(
        (from, to) ->
            assertThat(reasons(WHOLE.replace(from, to)).toString())
                .isNotEqualTo("[]")
                .doesNotContain(to.replace("\"", ""), "Evelyn", "87654"));
  }

  @Test
  void depthAndLengthAreBounded() {
    String deep = "{\"a\":" + "[".repeat(200) + "]".repeat(200) + "}";
    assertThat(reasons(deep)).extracting(Refusal::code).containsExactly("too-large");
    String wide = "{\"a\":\"" + "x".repeat(5_000_000) + "\"}";
    assertThat(reasons(wide)).extracting(Refusal::code).containsExactly("too-large");
  }
}
