package org.intercusp.web.api;

import java.time.Clock;
import java.time.LocalDate;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.DuckRows;
import org.intercusp.registry.report.ReportQuestion;
import org.intercusp.registry.report.Reports;
import org.intercusp.registry.report.form.ReportForm;
import org.jspecify.annotations.Nullable;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** The registry's report for programs; the threshold of small counts is not the caller's. */
@RestController
class ReportDoor {

  private final Reports reports;
  private final Canonicals canonicals;
  private final RegistryDeeds deeds;
  private final Clock clock;

  ReportDoor(Reports reports, Canonicals canonicals, RegistryDeeds deeds, Clock clock) {
    this.reports = reports;
    this.canonicals = canonicals;
    this.deeds = deeds;
    this.clock = clock;
  }

  @GetMapping(path = "/registry/report", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> json(
      @RequestParam(name = "cut-off", required = false)
          @DateTimeFormat(iso = DateTimeFormat.ISO.DATE)
          @Nullable LocalDate cutOff) {
    return answer(ReportForm.JSON, cutOff);
  }

  @GetMapping(path = "/registry/report", produces = "text/csv")
  ResponseEntity<byte[]> csv(
      @RequestParam(name = "cut-off", required = false)
          @DateTimeFormat(iso = DateTimeFormat.ISO.DATE)
          @Nullable LocalDate cutOff) {
    return answer(ReportForm.CSV, cutOff);
  }

  @GetMapping(path = "/registry/report", produces = "application/fhir+json")
  ResponseEntity<byte[]> fhir(
      @RequestParam(name = "cut-off", required = false)
          @DateTimeFormat(iso = DateTimeFormat.ISO.DATE)
          @Nullable LocalDate cutOff) {
    return answer(ReportForm.FHIR, cutOff);
  }

  @GetMapping(path = "/registry/report", produces = MediaType.TEXT_PLAIN_VALUE)
  ResponseEntity<byte[]> text(
      @RequestParam(name = "cut-off", required = false)
          @DateTimeFormat(iso = DateTimeFormat.ISO.DATE)
          @Nullable LocalDate cutOff) {
    return answer(ReportForm.TEXT, cutOff);
  }

  private ResponseEntity<byte[]> answer(ReportForm form, @Nullable LocalDate cutOff) {
    LocalDate until = cutOff == null ? LocalDate.now(clock) : cutOff;
    try {
      byte[] report = form.write(reports.of(ReportQuestion.at(until)), canonicals);
      deeds.reported(form.name(), until);
      return ResponseEntity.ok()
          .contentType(MediaType.parseMediaType(form.mediaType()))
          .body(report);
    } catch (DuckRows.NoSuchRows none) {
      throw Problem.of(
          HttpStatus.NOT_FOUND, "The registry holds no outcomes, so there is no report.");
    }
  }
}
