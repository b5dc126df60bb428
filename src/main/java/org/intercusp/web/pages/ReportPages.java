package org.intercusp.web.pages;

import java.time.Clock;
import java.time.LocalDate;
import org.intercusp.registry.report.DuckRows;
import org.intercusp.registry.report.ReportQuestion;
import org.intercusp.registry.report.Reports;
import org.intercusp.registry.report.form.ReportPage;
import org.intercusp.web.api.RegistryDeeds;
import org.jspecify.annotations.Nullable;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The registry's report as a page. */
@Controller
class ReportPages {

  private final Reports reports;
  private final RegistryDeeds deeds;
  private final Clock clock;

  ReportPages(Reports reports, RegistryDeeds deeds, Clock clock) {
    this.reports = reports;
    this.deeds = deeds;
    this.clock = clock;
  }

  @GetMapping(path = "/registry/report", produces = MediaType.TEXT_HTML_VALUE)
  String report(
      @RequestParam(name = "cut-off", required = false)
          @DateTimeFormat(iso = DateTimeFormat.ISO.DATE)
          @Nullable LocalDate cutOff,
      Model model) {
    LocalDate until = cutOff == null ? LocalDate.now(clock) : cutOff;
    try {
      model.addAttribute("report", ReportPage.content(reports.of(ReportQuestion.at(until))));
    } catch (DuckRows.NoSuchRows none) {
      model.addAttribute(
          "report", "<h1>Registry report</h1><p>The registry holds no outcomes yet.</p>");
    }
    deeds.reported("page", until);
    return "registry-report";
  }
}
