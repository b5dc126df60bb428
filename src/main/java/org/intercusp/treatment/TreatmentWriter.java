package org.intercusp.treatment;

import java.io.ByteArrayOutputStream;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.ObjectWriteContext;
import tools.jackson.core.json.JsonFactory;

/**
 * Writes a treatment as the one text that stands for it: members in the order of the dictionary, on
 * one line, absent members left out, empty optional lists left out save those where empty says more
 * than absent ({@code allergies}, {@code jointSigns}, an appliance's {@code teethPresent}), numbers
 * with the digits they were read with and never with an exponent. What it writes, {@link
 * TreatmentReader} reads back as an equal treatment.
 */
public final class TreatmentWriter {

  private static final JsonFactory JSON = JsonFactory.builder().build();

  /** The treatment in UTF-8, without a line end, as NDJSON wants it. */
  public byte[] write(Treatment treatment) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (JsonGenerator out = JSON.createGenerator(ObjectWriteContext.empty(), bytes)) {
      TreatmentFormat.TREATMENT.write(treatment, out);
    }
    return bytes.toByteArray();
  }
}
