package org.intercusp.registry.report.form;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.Measure;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Weight;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.OutcomeRows;
import org.intercusp.registry.report.Report;
import org.intercusp.registry.report.ReportQuestion;
import org.intercusp.registry.report.Reports;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The MeasureReport passes the general validator with the Measure in {@code profiles}. */
class MeasureReportConformsTest {

  private static final ReportMeasure FORM = new ReportMeasure(Canonicals.RESERVED);

  @TempDir Path cases;

  @Test
  void conformsAndTheMeasureNamesEveryGroup() throws Exception {
    OutcomeRows.write(cases, 800, 4);
    Report report = Reports.over(cases).of(ReportQuestion.at(LocalDate.of(2026, 6, 30)));
    Measure measure =
        FhirContext.forR4Cached()
            .newJsonParser()
            .parseResource(
                Measure.class,
                Files.readString(Path.of("profiles/Measure-registry-outcomes.json")));
    List<String> named =
        measure.getGroup().stream()
            .map(group -> group.getCode().getCodingFirstRep().getCode())
            .toList();
    assertThat(FORM.write(report).getGroup())
        .allMatch(group -> named.contains(group.getCode().getCodingFirstRep().getCode()));
    List<Issue> issues =
        new Conformance(FhirContext.forR4Cached(), GuardLimits.DEFAULT, Clock.systemUTC())
            .validate(FORM.json(report).getBytes(StandardCharsets.UTF_8), Format.JSON);
    assertThat(issues)
        .filteredOn(issue -> issue.weight() == Weight.ERROR || issue.weight() == Weight.FATAL)
        .isEmpty();
  }
}
