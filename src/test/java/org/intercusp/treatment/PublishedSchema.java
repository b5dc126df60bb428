package org.intercusp.treatment;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** A published schema as a general validator of JSON Schema understands it. */
public final class PublishedSchema {

  /** Numbers as they are written, however large. */
  public static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .enable(DeserializationFeature.USE_BIG_INTEGER_FOR_INTS)
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
          .build();

  private PublishedSchema() {}

  /** The text of a resource such as {@code /schema/treatment-1.json}. */
  public static String text(String resource) {
    try (InputStream in = PublishedSchema.class.getResourceAsStream(resource)) {
      return new String(Objects.requireNonNull(in, resource).readAllBytes(), UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Dates are told by their pattern alone, since formats need not be asserted. A whole number may
   * be written 10.0, as the standard says (JSON Schema 2020-12 Validation, 6.1.1).
   */
  public static Schema of(String resource) {
    SchemaRegistryConfig config =
        SchemaRegistryConfig.builder()
            .formatAssertionsEnabled(false)
            .losslessNarrowing(true)
            .build();
    return SchemaRegistry.withDefaultDialect(
            SpecificationVersion.DRAFT_2020_12, registry -> registry.schemaRegistryConfig(config))
        .getSchema(text(resource));
  }
}
