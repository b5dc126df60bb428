package org.intercusp.registry.bundle;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.utilities.json.model.JsonElement;
import org.hl7.fhir.utilities.json.model.JsonObject;
import org.hl7.fhir.utilities.json.model.JsonProperty;
import org.hl7.fhir.utilities.json.parser.JsonParser;
import org.junit.jupiter.api.Test;

/**
 * The runner that judges our view, against the published cases for runners of views: it must be
 * right where we lean on it.
 */
class PublishedViewCasesTest {

  private static final String FOLDER = "/org/hl7/fhir/testcases/sql-on-fhir/";
  // The library's parser gives ids with their type, the core's as they are written.
  private static final org.hl7.fhir.r4.formats.JsonParser CORE =
      new org.hl7.fhir.r4.formats.JsonParser();

  @Test
  void theRunnerGivesWhatIsPublished() throws Exception {
    List<String> wrong = new ArrayList<>();
    int ran = 0;
    for (JsonElement name : JsonParser.parse(text("manifest.json")).asJsonArray()) {
      JsonObject file = JsonParser.parseObject(text(name.asString()));
      List<Resource> resources = new ArrayList<>();
      for (JsonObject resource : file.getJsonObjects("resources")) {
        resources.add(CORE.parse(JsonParser.compose(resource)));
      }
      for (JsonObject test : file.getJsonObjects("tests")) {
        ran++;
        if (!isRight(test, resources)) {
          wrong.add(name.asString() + ": " + test.asString("title"));
        }
      }
    }
    assertThat(ran).isGreaterThan(100);
    assertThat(wrong).isEmpty();
  }

  private static boolean isRight(JsonObject test, List<Resource> resources) {
    List<String> rows = new ArrayList<>();
    try {
      ViewRunner.run(test.getJsonObject("view"), resources)
          .forEach(row -> rows.add(shown((JsonObject) row)));
    } catch (RuntimeException e) {
      return test.has("expectError");
    }
    if (test.has("expectCount")) {
      return rows.size() == test.asInteger("expectCount");
    }
    List<String> expected = new ArrayList<>();
    test.getJsonObjects("expect").forEach(row -> expected.add(shown(row)));
    rows.sort(null);
    expected.sort(null);
    return !test.has("expectError") && rows.equals(expected);
  }

  private static String shown(JsonObject row) {
    Map<String, String> cells = new TreeMap<>();
    for (JsonProperty cell : row.getProperties()) {
      cells.put(cell.getName(), shown(cell.getValue()));
    }
    return cells.toString();
  }

  private static String shown(JsonElement value) {
    return switch (value.type()) {
      case ARRAY -> value.asJsonArray().getItems().stream().map(one -> shown(one)).toList().toString();
      case OBJECT -> shown((JsonObject) value);
      case NULL -> "null";
      case NUMBER -> new BigDecimal(value.asString()).stripTrailingZeros().toPlainString();
      default -> value.asString();
    };
  }

  private static String text(String name) throws IOException {
    try (InputStream in = PublishedViewCasesTest.class.getResourceAsStream(FOLDER + name)) {
      return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
