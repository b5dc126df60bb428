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
import java.util.stream.Collectors;
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
  private static final String ERROR = "error";

  /** The R4 definitions say that Resource.id is a string, and so does the runner in use. */
  private static final String ID = "(\"type\"\\s*:\\s*\")id(?=\")";

  // The library's parser gives ids with their type, the core's as they are written.
  private static final org.hl7.fhir.r4.formats.JsonParser CORE =
      new org.hl7.fhir.r4.formats.JsonParser();

  @Test
  void theRunnerGivesWhatIsPublished() throws Exception {
    List<String> wrong = new ArrayList<>();
    int ran = 0;
    for (JsonElement name : JsonParser.parse(text("manifest.json")).asJsonArray()) {
      JsonObject file = JsonParser.parseObject(text(name.asString()).replaceAll(ID, "$1string"));
      List<Resource> resources = new ArrayList<>();
      for (JsonObject resource : file.getJsonObjects("resources")) {
        resources.add(CORE.parse(JsonParser.compose(resource)));
      }
      for (JsonObject test : file.getJsonObjects("tests")) {
        ran++;
        String given = given(test.getJsonObject("view"), resources);
        if (!isRight(test, given)) {
          wrong.add(name.asString() + ": " + test.asString("title"));
        }
      }
    }
    assertThat(ran).isGreaterThan(100);
    assertThat(wrong)
        .as("an index that is a constant, which no path of ours has")
        .containsExactly("constant.json: integer constant");
  }

  private static boolean isRight(JsonObject test, String given) {
    return test.has("expectCount")
        ? given.lines().count() == test.asInteger("expectCount")
        : given.equals(expected(test));
  }

  private static String given(JsonObject view, List<Resource> resources) {
    try {
      return shown(ViewRunner.run(view, resources).getItems());
    } catch (RuntimeException e) {
      return ERROR;
    }
  }

  private static String expected(JsonObject test) {
    return test.has("expectError") ? ERROR : shown(List.copyOf(test.getJsonObjects("expect")));
  }

  private static String shown(List<JsonElement> rows) {
    return rows.stream()
        .map(row -> shown((JsonObject) row))
        .sorted()
        .collect(Collectors.joining("\n"));
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
      case ARRAY ->
          value.asJsonArray().getItems().stream().map(one -> shown(one)).toList().toString();
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
