package org.intercusp.registry.report.form;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Enumerations.PublicationStatus;
import org.hl7.fhir.r4.model.Measure;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Figure;
import org.intercusp.registry.report.OutcomeRows;
import org.intercusp.registry.report.Report;
import org.intercusp.registry.report.ReportQuestion;
import org.intercusp.registry.report.Reports;

/** Writes the Measure and its code system in {@code profiles} from a report that has everything. */
public final class WriteRegistryMeasure {

  private WriteRegistryMeasure() {}

  public static void main(String[] args) throws Exception {
    Path cases = Files.createTempDirectory("measure");
    OutcomeRows.write(cases, 6000, 12);
    Report report = Reports.over(cases).of(new ReportQuestion(LocalDate.of(2026, 6, 30), 1));
    write("Measure-registry-outcomes.json", measure(report));
    write("CodeSystem-registry-figure.json", codes(report));
  }

  private static void write(String name, Resource resource) throws IOException {
    Files.writeString(
        Path.of("profiles", name),
        FhirContext.forR4Cached()
                .newJsonParser()
                .setPrettyPrint(true)
                .encodeResourceToString(resource)
            + "\n");
  }

  private static Map<String, Figure> figures(Report report) {
    Map<String, Figure> figures = new LinkedHashMap<>();
    report
        .figures()
        .forEach(
            figure ->
                figures.putIfAbsent(
                    ReportMeasure.code(figure.measure(), figure.statistic().code()), figure));
    return figures;
  }

  static Measure measure(Report report) {
    Measure measure = new Measure();
    measure.setId("registry-outcomes");
    measure
        .setUrl(Canonicals.RESERVED.registryOutcomes())
        .setVersion("0.1.0")
        .setName("RegistryOutcomes")
        .setTitle("Registry outcomes");
    measure
        .setStatus(PublicationStatus.DRAFT)
        .setExperimental(false)
        .setDateElement(new DateTimeType("2026-11-01"));
    measure.setPublisher("The Intercusp project");
    measure.setDescription(
        "What a registry reports of outcomes from many clinics, each case counted once: a group a statistic, its score for all cases, stratified by appliance, age, growth stage, year and clinic; curves by day, completeness by field, models by term.");
    measure
        .getScoring()
        .addCoding()
        .setSystem("http://terminology.hl7.org/CodeSystem/measure-scoring")
        .setCode("continuous-variable");
    measure
        .addType()
        .addCoding()
        .setSystem("http://terminology.hl7.org/CodeSystem/measure-type")
        .setCode("outcome");
    figures(report)
        .forEach(
            (code, figure) -> {
              Measure.MeasureGroupComponent group = measure.addGroup();
              group.setCode(
                  new CodeableConcept(
                      new Coding().setSystem(Canonicals.RESERVED.registryFigures()).setCode(code)));
              group.setDescription(
                  figure.measure().title()
                      + ": "
                      + figure.statistic().title()
                      + ". "
                      + figure.measure().definition()
                      + " Source: "
                      + figure.measure().source().shown()
                      + ".");
              report.dimensions(figure.measure()).stream()
                  .filter(dimension -> dimension != Dimension.ALL)
                  .filter(
                      dimension ->
                          report
                              .statistics(figure.measure(), dimension)
                              .contains(figure.statistic()))
                  .forEach(
                      dimension ->
                          group
                              .addStratifier()
                              .setCode(new CodeableConcept().setText(dimension.code()))
                              .setDescription(dimension.shown()));
            });
    return measure;
  }

  static CodeSystem codes(Report report) {
    CodeSystem codes = new CodeSystem();
    codes.setId("registry-figure");
    codes
        .setUrl(Canonicals.RESERVED.registryFigures())
        .setVersion("0.1.0")
        .setName("RegistryFigure")
        .setTitle("Registry figure");
    codes
        .setStatus(PublicationStatus.DRAFT)
        .setExperimental(false)
        .setDateElement(new DateTimeType("2026-11-01"));
    codes
        .setPublisher("The Intercusp project")
        .setDescription("Figures of the registry's report: measure and statistic.");
    codes.setCaseSensitive(true).setContent(CodeSystem.CodeSystemContentMode.COMPLETE);
    figures(report)
        .forEach(
            (code, figure) ->
                codes
                    .addConcept()
                    .setCode(code)
                    .setDisplay(figure.measure().title() + ": " + figure.statistic().title())
                    .setDefinition(figure.measure().definition()));
    codes.setCount(codes.getConcept().size());
    return codes;
  }
}
