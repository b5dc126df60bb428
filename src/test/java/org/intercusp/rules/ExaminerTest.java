package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** Acceptances, urgency, order and the clinic's own limits. */
class ExaminerTest {

  private static final String UNSAFE =
      "\"/bites/0/registeredReading\": 9.5, \"/bites/0/overjetInBite\": -0.5";

  @Test
  void anErrorStopsADeliveryUntilItIsAccepted() {
    assertThat(examine("{" + UNSAFE + "}").mayGo()).isFalse();
    Examination accepted =
        examine("{" + UNSAFE + "," + acceptance("bite-share-exceeded", "B1", "9.5", "13") + "}");
    assertThat(accepted.mayGo()).isTrue();
    assertThat(judged(accepted, "bite-share-exceeded").acceptance().reason())
        .isEqualTo("held comfortably");
  }

  @Test
  void theWayANumberIsWrittenDoesNotUndoAnAcceptance() {
    String written = acceptance("bite-share-exceeded", "B1", "9.500", "13.0");
    assertThat(examine("{" + UNSAFE + "," + written + "}").mayGo()).isTrue();
  }

  @Test
  void anAcceptanceStopsCountingWhenValuesSubjectOrFindingChange() {
    for (String other :
        List.of(
            acceptance("bite-share-exceeded", "B1", "9.4", "13"),
            acceptance("bite-share-exceeded", "A1", "9.5", "13"),
            acceptance("bite-step-large", "B1", "9.5", "13"))) {
      assertThat(examine("{" + UNSAFE + "," + other + "}").mayGo()).isFalse();
    }
  }

  @Test
  void someFindingsNoReasonOverrides() {
    String changes = "\"/bites/0/maximumReading\": 6.5";
    Finding finding = judged(examine("{" + changes + "}"), "bite-readings-order").finding();
    String acceptance =
        """
        "/acceptances": [{"finding": "bite-readings-order", "subject": "B1",
         "values": {"maximum": %s, "registered": %s}, "reason": "held comfortably",
         "by": {"identifier": {"system": "https://harbourlane.example/id", "value": "P-07"},
         "family": "Winterbourne"}, "on": "2026-07-20"}]"""
            .formatted(finding.values().get("maximum"), finding.values().get("registered"));
    Examination examination = examine("{" + changes + "," + acceptance + "}");
    assertThat(judged(examination, "bite-readings-order").accepted()).isFalse();
    assertThat(examination.mayGo()).isFalse();
    assertThat(
            List.of(
                "date-order", "bite-readings-order", "outcome-score-mismatch", "consent-missing"))
        .allMatch(code -> !RuleCatalogue.acceptable(code));
    assertThat(RuleCatalogue.rules().stream().filter(rule -> !rule.acceptable())).hasSize(4);
  }

  @Test
  void aSignOfHarmGoesAtOnceAndStopsTheNextOrder() {
    String harm = "\"/reviews/3/jointSigns\": [\"pain\"]";
    Examination urgent = examine("{" + harm + "}");
    assertThat(urgent.mayGo()).isTrue();
    assertThat(urgent.urgent()).isTrue();
    assertThat(urgent.mayOrderAppliance()).isFalse();
    String answered =
        """
        "/acceptances": [{"finding": "review-joint", "subject": "R4", "values": {"pain": 1},
         "reason": "examined, muscular, settled", "by": {"identifier":
         {"system": "https://harbourlane.example/id", "value": "P-07"},
         "family": "Winterbourne"}, "on": "2026-07-20"}]""";
    Examination after = examine("{" + harm + "," + answered + "}");
    assertThat(after.urgent()).isTrue();
    assertThat(after.mayOrderAppliance()).isTrue();
  }

  @Test
  void aCleanRecordMayGoAndOrder() {
    Examination clean = examine("{}");
    assertThat(clean.mayGo()).isTrue();
    assertThat(clean.urgent()).isFalse();
    assertThat(clean.mayOrderAppliance()).isTrue();
  }

  @Test
  void findingsStandBySeverityThenPlace() {
    Examination examination =
        examine(
            "{"
                + UNSAFE
                + """
                , "/reviews/3/jointSigns": ["pain"], "/appliances/0/clasps/1/wire": 0.9,
                "/appliances/0/clasps/0/wire": 0.9, "/stages/1/goals": []}""");
    assertThat(examination.findings())
        .extracting(judged -> judged.finding().severity())
        .isSorted()
        .contains(Severity.URGENT, Severity.ERROR, Severity.WARNING, Severity.INFORMATION);
    assertThat(examination.findings().stream().map(j -> j.finding().pointer().text()).toList())
        .containsSubsequence(
            "/appliances/0/clasps/0/wire", "/appliances/0/clasps/1/wire", "/stages/1/goals");
  }

  @Test
  void indexesAreOrderedByNumber() {
    PointerOrder order = new PointerOrder();
    assertThat(order.compare("/reviews/2/date", "/reviews/10/date")).isNegative();
    assertThat(order.compare("/reviews", "/reviews/0")).isNegative();
    assertThat(order.compare("/bites/0/a", "/bites/0/b")).isNegative();
  }

  @Test
  void aClinicsOwnLimitIsUsedAndSaid() {
    Treatment treatment = SampleTreatments.base();
    Limits own = Limits.named(Map.of("share-of-path", new BigDecimal("0.60")));
    Finding finding =
        judged(new Examiner(own).examine(treatment, treatment.asOf()), "bite-share-exceeded")
            .finding();
    assertThat(finding.message()).contains("The clinic has set share-of-path to 0.60", "0.70");
    assertThat(examine("{}").findings())
        .noneMatch(judged -> judged.finding().code().equals("bite-share-exceeded"));
  }

  /** Of two reviews on one day the later in the record is the last: what it says is judged. */
  @Test
  void theLastReviewOfADayIsJudged() {
    String same = "\"/reviews/3/date\": \"2026-06-01\", \"/reviews/3/overjet\": -0.5";
    assertThat(
            judged(examine("{" + same + "}"), "review-overcorrection").finding().pointer().text())
        .isEqualTo("/reviews/3/overjet");
  }

  /** 0.23276 mm in 13 days are 0.54497 a month, 0.23278 mm 0.54502: rounded twice, both were 0.55. */
  @Test
  void aRateIsRoundedOnce() {
    String one = "\"/reviews/3\": null, \"/reviews/2\": null, \"/reviews/1\": null";
    assertThat(rate("{" + one + ", \"/reviews/0/overjet\": 7.76724}")).isEqualTo("0.54");
    assertThat(rate("{" + one + ", \"/reviews/0/overjet\": 7.76722}")).isEqualTo("0.55");
  }

  private static String rate(String changes) {
    return figure(examine(changes), "overjet-rate");
  }

  private static String figure(Examination examination, String name) {
    return examination.figures().stream()
        .filter(figure -> figure.name().equals(name))
        .map(figure -> figure.value() == null ? "none" : figure.value().shown())
        .findFirst()
        .orElseThrow();
  }

  /** Born on 29 February: the age shown and the jaw assumed change on one day, 1 March. */
  @Test
  void ageAndJawChangeOnOneDay() {
    Treatment treatment =
        SampleTreatments.changed("{\"/patient/birthDate\": \"2008-02-29\", \"/asOf\": null}");
    Examination before = new Examiner().examine(treatment, LocalDate.parse("2026-02-28"));
    Examination after = new Examiner().examine(treatment, LocalDate.parse("2026-03-01"));
    assertThat(figure(before, "age")).isEqualTo("17.9");
    assertThat(note(before)).contains("Bonwill side 88 mm");
    assertThat(figure(after, "age")).isEqualTo("18.0");
    assertThat(note(after)).contains("Bonwill side 100 mm");
  }

  private static String note(Examination examination) {
    return examination.figures().stream()
        .filter(figure -> figure.name().equals("gap-first-premolar"))
        .map(figure -> String.valueOf(figure.note()))
        .findFirst()
        .orElseThrow();
  }

  private static Judged judged(Examination examination, String code) {
    return examination.findings().stream()
        .filter(judged -> judged.finding().code().equals(code))
        .findFirst()
        .orElseThrow();
  }

  private static String acceptance(String code, String subject, String activation, String path) {
    return """
        "/acceptances": [{"finding": "%s", "subject": "%s",
         "values": {"share": 0.7308, "activation": %s, "path": %s}, "reason": "held comfortably",
         "by": {"identifier": {"system": "https://harbourlane.example/id", "value": "P-07"},
         "family": "Winterbourne"}, "on": "2026-07-20"}]"""
        .formatted(code, subject, activation, path);
  }

  private static Examination examine(String changes) {
    Treatment treatment = SampleTreatments.changed(changes);
    return new Examiner().examine(treatment, treatment.asOf());
  }
}
