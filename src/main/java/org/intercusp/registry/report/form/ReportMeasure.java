package org.intercusp.registry.report.form;

import ca.uhn.fhir.context.FhirContext;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.MeasureReport;
import org.hl7.fhir.r4.model.MeasureReport.MeasureReportGroupComponent;
import org.hl7.fhir.r4.model.MeasureReport.MeasureReportGroupStratifierComponent;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Quantity;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Figure;
import org.intercusp.registry.report.Measure;
import org.intercusp.registry.report.Report;

/**
 * The report as a FHIR MeasureReport against the Measure {@code registry-outcomes}: a group a
 * statistic, its score for all cases, a stratifier a dimension. What is hidden is a score masked.
 */
public final class ReportMeasure {

  private static final String ABSENT = "http://hl7.org/fhir/StructureDefinition/data-absent-reason";
  private static final String UCUM = "http://unitsofmeasure.org";

  private final Canonicals canonicals;

  public ReportMeasure(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  public MeasureReport write(Report report) {
    MeasureReport written = new MeasureReport();
    written.setId("registry-report-" + report.question().cutOff());
    written.setStatus(MeasureReport.MeasureReportStatus.COMPLETE);
    written.setType(MeasureReport.MeasureReportType.SUMMARY);
    written.setMeasure(canonicals.registryOutcomes());
    Period period = new Period();
    period.setEndElement(new DateTimeType(report.question().cutOff().toString()));
    written.setPeriod(period);
    for (Measure measure : Measure.values()) {
      Map<String, List<Figure>> byStatistic = new LinkedHashMap<>();
      for (Figure figure : report.of(measure)) {
        byStatistic
            .computeIfAbsent(figure.statistic().code(), fresh -> new ArrayList<>())
            .add(figure);
      }
      byStatistic.forEach(
          (statistic, figures) -> group(written.addGroup(), code(measure, statistic), figures));
    }
    return written;
  }

  /** The same as JSON. */
  public String json(Report report) {
    return FhirContext.forR4Cached()
        .newJsonParser()
        .setPrettyPrint(true)
        .encodeResourceToString(write(report));
  }

  static String code(Measure measure, String statistic) {
    return measure.code() + "." + statistic;
  }

  private void group(MeasureReportGroupComponent group, String code, List<Figure> figures) {
    group.setCode(
        new CodeableConcept(new Coding().setSystem(canonicals.registryFigures()).setCode(code)));
    Map<Dimension, MeasureReportGroupStratifierComponent> stratifiers = new LinkedHashMap<>();
    for (Figure figure : figures) {
      Dimension dimension = figure.slice().dimension();
      if (dimension == Dimension.ALL) {
        group.setMeasureScore(score(figure));
      } else {
        stratifiers
            .computeIfAbsent(
                dimension,
                fresh -> group.addStratifier().addCode(new CodeableConcept().setText(fresh.code())))
            .addStratum()
            .setValue(new CodeableConcept().setText(figure.slice().member()))
            .setMeasureScore(score(figure));
      }
    }
  }

  private static Quantity score(Figure figure) {
    Quantity score = new Quantity();
    String unit = figure.statistic().unit();
    score.setSystem(UCUM).setCode(unit).setUnit(unit);
    if (figure.value() != null) {
      score.setValue(Digits.exact(Objects.requireNonNull(figure.value())));
    } else {
      score.addExtension(ABSENT, new CodeType(figure.hidden() ? "masked" : "not-applicable"));
    }
    return score;
  }
}
