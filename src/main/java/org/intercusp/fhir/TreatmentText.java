package org.intercusp.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;

/** A treatment as the text of a FHIR R4 Bundle, for doors that need no model of it. */
public final class TreatmentText {

  private final FhirContext context;
  private final TreatmentMapper mapper;

  public TreatmentText(FhirContext context, TreatmentMapper mapper) {
    this.context = context;
    this.mapper = mapper;
  }

  /** How a Bundle is written. */
  public enum Format {
    JSON,
    XML
  }

  /**
   * Writes a treatment; the same treatment, day and findings give the same bytes.
   *
   * @return UTF-8
   */
  public byte[] write(
      Treatment treatment, LocalDate on, List<Finding> findings, BundleForm form, Format format) {
    Bundle bundle = mapper.toBundle(treatment, on, findings, form);
    IParser parser = format == Format.JSON ? context.newJsonParser() : context.newXmlParser();
    return parser
        .setPrettyPrint(true)
        .encodeResourceToString(bundle)
        .getBytes(StandardCharsets.UTF_8);
  }
}
