package org.intercusp.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A treatment with every member of the dictionary, and what the tests do with treatments. */
final class Samples {

  static final LocalDate ON = LocalDate.of(2026, 9, 1);
  static final FhirContext FHIR = FhirContext.forR4Cached();
  static final TreatmentMapper MAPPER = new TreatmentMapper(Canonicals.RESERVED);
  static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
          .build();

  private Samples() {}

  static JsonNode wholeJson() {
    try (InputStream in = Samples.class.getResourceAsStream("/fhir/whole-treatment.json")) {
      return JSON.readTree(Objects.requireNonNull(in));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Treatment whole() {
    return read(wholeJson());
  }

  static Treatment read(JsonNode json) {
    ReadResult result = new TreatmentReader().read(JSON.writeValueAsBytes(json));
    if (result instanceof ReadResult.Accepted accepted) {
      return accepted.treatment();
    }
    throw new AssertionError(((ReadResult.Refused) result).faults().toString());
  }

  static Bundle bundle(Treatment treatment, BundleForm form) {
    return MAPPER.toBundle(treatment, ON, List.of(), form);
  }

  static String json(Bundle bundle) {
    return FHIR.newJsonParser().encodeResourceToString(bundle);
  }

  static Bundle parse(String json) {
    return FHIR.newJsonParser().parseResource(Bundle.class, json);
  }

  /** What a file would be after a journey through FHIR JSON. */
  static ReadBack journey(Treatment treatment) {
    return MAPPER.fromBundle(parse(json(bundle(treatment, BundleForm.TRANSACTION))));
  }

  static String file(Treatment treatment) {
    return new String(new TreatmentWriter().write(treatment), StandardCharsets.UTF_8);
  }
}
