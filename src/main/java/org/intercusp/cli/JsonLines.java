package org.intercusp.cli;

import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** JSON for machines: one object a line, numbers without exponents. */
final class JsonLines {

  private final JsonMapper json =
      JsonMapper.builder().enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN).build();

  String write(JsonNode node) {
    return json.writeValueAsString(node);
  }
}
