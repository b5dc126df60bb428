package org.intercusp.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Consumer;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Treatment files with every member of the dictionary, each of a patient nobody had before. */
public final class Parcels {

  public static final TreatmentMapper MAPPER = new TreatmentMapper(Canonicals.RESERVED);

  private static final LocalDate DAY = LocalDate.parse("2026-03-20");
  private static final JsonMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private Parcels() {}

  /** A treatment in a clinic and of people of its own. */
  public static ObjectNode unheardOf() {
    String mark = UUID.randomUUID().toString().substring(0, 8);
    ObjectNode file = (ObjectNode) JSON.readTree(whole());
    for (String who : List.of("clinic", "clinician", "patient", "referrer", "laboratory")) {
      ObjectNode identifier = (ObjectNode) file.path(who).path("identifier");
      identifier.put("value", identifier.path("value").stringValue() + "-" + mark);
    }
    return file;
  }

  /**
   * A short treatment of one of the patients of a clinic: some twenty-five resources.
   *
   * @param mark makes clinic and people its own
   */
  public static ObjectNode brief(String mark, String patient, String treatment) {
    ObjectNode file = (ObjectNode) JSON.readTree(whole());
    for (String much : List.of("films", "models", "outcomes", "acceptances", "laboratory")) {
      file.remove(much);
    }
    file.remove("completion");
    ((ObjectNode) file.path("patient").path("consent")).remove("withdrawnOn");
    ArrayNode appliances = (ArrayNode) file.path("appliances");
    appliances.remove(1);
    ((ObjectNode) appliances.get(0)).remove(List.of("lab", "fittedOn", "statement", "batch"));
    ((ObjectNode) file.at("/stages/0")).remove("trimming");
    ((ArrayNode) file.at("/stages/0/goals")).remove(1);
    ((ArrayNode) file.path("reviews")).remove(0);
    ((ObjectNode) file.path("diagnosis"))
        .remove(List.of("overbiteCover", "crowding", "lips", "growthStage", "hygiene"));
    ((ObjectNode) file.path("patient")).set("allergies", JSON.createArrayNode());
    for (String who : List.of("clinic", "clinician", "patient", "referrer")) {
      ObjectNode identifier = (ObjectNode) file.path(who).path("identifier");
      String own = who.equals("patient") ? "-" + patient : "";
      identifier.put("value", identifier.path("value").stringValue() + "-" + mark + own);
    }
    file.put("id", treatment);
    return file;
  }

  /** The tree of a file, its numbers as they are written. */
  public static ObjectNode file(byte[] bytes) {
    return (ObjectNode) JSON.readTree(bytes);
  }

  private static byte[] whole() {
    try (InputStream in = Parcels.class.getResourceAsStream("/treatment/whole.json")) {
      return Objects.requireNonNull(in).readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static ObjectNode changed(ObjectNode file, Consumer<ObjectNode> change) {
    ObjectNode copy = file.deepCopy();
    change.accept(copy);
    return copy;
  }

  public static Treatment read(ObjectNode file) {
    ReadResult result =
        new TreatmentReader().read(file.toString().getBytes(StandardCharsets.UTF_8));
    if (result instanceof ReadResult.Accepted accepted) {
      return accepted.treatment();
    }
    throw new IllegalArgumentException(result.toString());
  }

  public static Bundle bundle(ObjectNode file) {
    return MAPPER.toBundle(read(file), DAY, List.of(), BundleForm.TRANSACTION);
  }

  public static String canonical(Treatment treatment) {
    return new String(new TreatmentWriter().write(treatment), StandardCharsets.UTF_8);
  }

  public static String canonical(ObjectNode file) {
    return canonical(read(file));
  }
}
