package org.intercusp.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.version.Conversion;
import org.intercusp.fhir.version.Release;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;

/** A treatment as the text of a FHIR Bundle, for doors that need no model of it. */
public final class TreatmentText {

  private final Conversion conversion;
  private final TreatmentMapper mapper;

  public TreatmentText(FhirContext context, TreatmentMapper mapper) {
    this.conversion = Conversion.pretty(context, mapper.canonicals().base());
    this.mapper = mapper;
  }

  /** How a Bundle is written. */
  public enum Format {
    JSON,
    XML
  }

  /**
   * Writes a treatment in R4; the same treatment, day and findings give the same bytes.
   *
   * @return UTF-8
   */
  public byte[] write(
      Treatment treatment, LocalDate on, List<Finding> findings, BundleForm form, Format format) {
    return write(treatment, on, findings, form, format, Release.R4);
  }

  /**
   * Writes a treatment in a release of FHIR: mapped once, to R4, and converted.
   *
   * @return UTF-8
   */
  public byte[] write(
      Treatment treatment,
      LocalDate on,
      List<Finding> findings,
      BundleForm form,
      Format format,
      Release release) {
    Bundle bundle = mapper.toBundle(treatment, on, findings, form);
    return switch (format) {
      case JSON -> conversion.json(bundle, release);
      case XML -> conversion.xml(bundle, release);
    };
  }
}
