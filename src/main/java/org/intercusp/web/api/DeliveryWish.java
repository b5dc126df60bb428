package org.intercusp.web.api;

import org.springframework.http.HttpStatus;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The body {@code {"to": NAME}}.
 *
 * @param to name of a recipient
 */
record DeliveryWish(String to) {

  private static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .build();

  static DeliveryWish read(byte[] body) {
    try {
      JsonNode node = JSON.readTree(body);
      if (node.isObject() && node.size() == 1 && node.path("to").isString()) {
        return new DeliveryWish(node.path("to").stringValue());
      }
    } catch (JacksonException e) {
      // falls through to the refusal
    }
    throw Problem.of(HttpStatus.BAD_REQUEST, "A delivery is asked for with {\"to\": NAME}.");
  }
}
