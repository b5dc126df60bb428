package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Date;
import org.hl7.fhir.r4.model.MeasureReport;
import org.hl7.fhir.r4.model.MeasureReport.MeasureReportStatus;
import org.hl7.fhir.r4.model.MeasureReport.MeasureReportType;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.Test;

/** What the library says of documents of ours where it does not know better. */
class OwnAnswersTest {

  @Test
  void whatIsSaidOfAUriInADocumentPointsToIt() throws IOException {
    byte[] document =
        Files.readAllBytes(Path.of("profiles/example/Bundle-treatment-document-example.json"));
    assertThat(Judges.SHARED.validate(document, Format.JSON))
        .filteredOn(issue -> issue.text().contains("/policy/only-where-consented"))
        .singleElement()
        .satisfies(
            issue -> {
              assertThat(issue.expression())
                  .matches("Bundle.entry\\[\\d+].resource.policy\\[0].uri");
              assertThat(issue.value()).endsWith("/policy/only-where-consented");
              assertThat(issue.line()).isGreaterThan(1);
              assertThat(issue.text()).doesNotContain("Bundle.entry");
            });
  }

  @Test
  void aHistoryHoldsVersionsOfWhatIsReferredTo() {
    String text =
        """
        {"resourceType": "Bundle", "type": "%s", "entry": [%s, %s, {
          "fullUrl": "http://a.example/fhir/Basic/b",
          "resource": {"resourceType": "Basic", "id": "b", "code": {"text": "x"},
            "subject": {"reference": "Patient/p"}}%s}]}
        """;
    String version =
        """
        {"fullUrl": "http://a.example/fhir/Patient/p",
          "resource": {"resourceType": "Patient", "id": "p", "meta": {"versionId": "%d"}}%s}
        """;
    String request =
        ", \"request\": {\"method\": \"PUT\", \"url\": \"x\"}, \"response\": {\"status\": \"200\"}";
    String history =
        text.formatted(
            "history", version.formatted(2, request), version.formatted(1, request), request);
    String collection =
        text.formatted("collection", version.formatted(2, ""), version.formatted(1, ""), "");
    assertThat(Judges.SHARED.validate(history.getBytes(StandardCharsets.UTF_8), Format.JSON))
        .noneMatch(issue -> issue.weight().stops());
    assertThat(Judges.SHARED.validate(collection.getBytes(StandardCharsets.UTF_8), Format.JSON))
        .anyMatch(issue -> issue.text().startsWith("Multiple matches"));
  }

  /** The library's check of its groups asks for a value where a small count is withheld. */
  @Test
  void aMeasureOfThePackageIsKnown() {
    MeasureReport report = new MeasureReport();
    report.setStatus(MeasureReportStatus.COMPLETE).setType(MeasureReportType.SUMMARY);
    report.setMeasure(Canonicals.RESERVED.registryOutcomes()).getPeriod().setStart(new Date(0));
    report.getPeriod().setEnd(new Date(0));
    assertThat(Judges.SHARED.validate(report))
        .filteredOn(issue -> issue.text().contains("Measure "))
        .singleElement()
        .satisfies(
            issue -> {
              assertThat(issue.weight()).isEqualTo(Weight.INFORMATION);
              assertThat(issue.expression()).isEqualTo("MeasureReport.measure");
              assertThat(issue.text()).doesNotContain("resolved");
            });
    report.setMeasure(Canonicals.RESERVED.registryOutcomes() + "-of-nobody");
    assertThat(Judges.SHARED.validate(report))
        .anyMatch(issue -> issue.text().contains("resolved") && issue.weight() == Weight.WARNING);
  }
}
