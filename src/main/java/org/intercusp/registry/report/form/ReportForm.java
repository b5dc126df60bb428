package org.intercusp.registry.report.form;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.Report;

/** What the report can be written as; the figures are the same in all. */
public enum ReportForm {
  TEXT("text/plain;charset=UTF-8"),
  JSON("application/json"),
  CSV("text/csv;charset=UTF-8"),
  FHIR("application/fhir+json"),
  HTML("text/html;charset=UTF-8");

  private final String mediaType;

  ReportForm(String mediaType) {
    this.mediaType = mediaType;
  }

  /** The word for it on the command line. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String mediaType() {
    return mediaType;
  }

  /**
   * Writes a report.
   *
   * @param canonicals under which the Measure and the codes of its figures stand in FHIR
   */
  public byte[] write(Report report, Canonicals canonicals) {
    return switch (this) {
      case TEXT -> ReportText.write(report).getBytes(StandardCharsets.UTF_8);
      case JSON -> ReportJson.write(report);
      case CSV -> ReportCsv.write(report).getBytes(StandardCharsets.UTF_8);
      case FHIR -> new ReportMeasure(canonicals).json(report).getBytes(StandardCharsets.UTF_8);
      case HTML -> ReportPage.document(report).getBytes(StandardCharsets.UTF_8);
    };
  }
}
