package org.intercusp.rules;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The base treatment of the rules' samples, and what becomes of it by changes. */
public final class SampleTreatments {

  private static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
          .build();

  private SampleTreatments() {}

  public static Treatment base() {
    return changed("{}");
  }

  /** The base with changes: JSON pointers to new values, null to remove, {@code /-} to append. */
  public static Treatment changed(String changes) {
    JsonNode tree = tree();
    JSON.readTree(changes).properties().forEach(c -> apply(tree, c.getKey(), c.getValue()));
    return read(JSON.writeValueAsBytes(tree));
  }

  private static Treatment read(byte[] utf8) {
    ReadResult result = new TreatmentReader().read(utf8);
    if (result instanceof ReadResult.Accepted accepted) {
      return accepted.treatment();
    }
    throw new IllegalArgumentException(result.toString());
  }

  private static JsonNode tree() {
    try (InputStream in = RuleCatalogue.class.getResourceAsStream("sample-base.json")) {
      return JSON.readTree(in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void apply(JsonNode tree, String pointer, JsonNode value) {
    int slash = pointer.lastIndexOf('/');
    JsonNode parent = tree.at(pointer.substring(0, slash));
    String last = pointer.substring(slash + 1);
    if (parent instanceof ArrayNode array) {
      inArray(array, last, value);
    } else if (parent instanceof ObjectNode object) {
      if (value.isNull()) {
        object.remove(last);
      } else {
        object.set(last, value);
      }
    } else {
      throw new IllegalArgumentException("nothing at " + pointer);
    }
  }

  private static void inArray(ArrayNode array, String last, JsonNode value) {
    if (last.equals("-")) {
      array.add(value);
    } else if (value.isNull()) {
      array.remove(Integer.parseInt(last));
    } else {
      array.set(Integer.parseInt(last), value);
    }
  }
}
