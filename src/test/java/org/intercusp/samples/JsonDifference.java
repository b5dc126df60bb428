package org.intercusp.samples;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Where two JSON texts differ, each place as a JSON path with what was there and what is now. */
final class JsonDifference {

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private final List<String> found = new ArrayList<>();

  private JsonDifference() {}

  static List<String> between(String expected, String actual) {
    JsonDifference difference = new JsonDifference();
    difference.compare("$", JSON.readTree(expected), JSON.readTree(actual));
    return difference.found;
  }

  private void compare(String path, JsonNode expected, JsonNode actual) {
    if (expected.isObject() && actual.isObject()) {
      Set<String> names = new LinkedHashSet<>(expected.propertyNames());
      names.addAll(actual.propertyNames());
      names.forEach(name -> one(path + "." + name, expected.get(name), actual.get(name)));
    } else if (expected.isArray() && actual.isArray()) {
      for (int i = 0; i < Math.max(expected.size(), actual.size()); i++) {
        one(path + "[" + i + "]", expected.get(i), actual.get(i));
      }
    } else if (!expected.equals(actual)) {
      found.add(path + ": expected " + expected + ", is " + actual);
    }
  }

  private void one(String path, JsonNode expected, JsonNode actual) {
    if (expected == null) {
      found.add(path + ": not expected, is " + actual);
    } else if (actual == null) {
      found.add(path + ": expected " + expected + ", is missing");
    } else {
      compare(path, expected, actual);
    }
  }
}
