package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.Examiner;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Whatever stands in one place of a Bundle, what it says of a treatment is read back: a Bundle that
 * only the reading fails at would be refused without a word of what is wrong.
 */
class CrookedValuesTest {

  private static final JsonMapper JSON = new JsonMapper();

  private final TradeRules trade =
      new TradeRules(new TreatmentMapper(Canonicals.RESERVED), new Examiner(), Clock.systemUTC());
  private final GeneralValidator general =
      Definitions.of(Judges.FHIR, Canonicals.RESERVED).general();

  /** Places by their path without indexes, so that each kind of element is tried once. */
  private final Set<String> tried = new HashSet<>();

  private final List<String> failed = new ArrayList<>();

  /** What reading once failed at; empty for everything. */
  private Set<String> only =
      Set.of(
          "Bundle.entry.resource",
          "Bundle.entry.request.method",
          "Patient.gender",
          "PractitionerRole.active",
          "Observation.valueBoolean",
          "Observation.component.valueBoolean",
          "DeviceRequest.parameter.valueBoolean",
          "Task.input.valueBoolean",
          "ServiceRequest.occurrenceTiming.repeat.frequency");

  @Test
  void whatReadingOnceFailedAt() {
    crooked("\"unheard-of\"");
    assertThat(tried).isEqualTo(only);
    assertThat(failed).isEmpty();
  }

  /** A quarter of a minute each. */
  @ParameterizedTest
  @Tag("long")
  @ValueSource(strings = {"\"unheard-of\"", "\"\"", "-7", "{}", "[]", "{\"id\": \"x\"}"})
  void whateverStandsThere(String crooked) {
    only = Set.of();
    crooked(crooked);
    assertThat(tried).hasSizeGreaterThan(300);
    assertThat(failed).isEmpty();
  }

  private void crooked(String value) {
    JsonNode root =
        JSON.readTree(
            Judges.FHIR
                .newJsonParser()
                .encodeResourceToString(Judges.bundle(Judges.whole(), BundleForm.TRANSACTION)));
    walk(root, root, "", JSON.readTree(value));
  }

  private void walk(JsonNode root, JsonNode node, String path, JsonNode crooked) {
    if (node instanceof ObjectNode object) {
      String type = object.path("resourceType").asString("");
      String here = type.isEmpty() ? path : type;
      for (String name : List.copyOf(object.propertyNames())) {
        JsonNode was = Objects.requireNonNull(object.get(name));
        String place = here + "." + name;
        if (!name.equals("resourceType")
            && (only.isEmpty() || only.contains(place))
            && tried.add(place)) {
          object.set(name, crooked);
          judge(root, place);
          object.set(name, was);
        }
        walk(root, was, here + "." + name, crooked);
      }
    } else if (node instanceof ArrayNode list) {
      list.forEach(item -> walk(root, item, path, crooked));
    }
  }

  private void judge(JsonNode root, String path) {
    try {
      if (general.parsed(JSON.writeValueAsString(root), Format.JSON) instanceof Bundle bundle) {
        trade.judge(bundle);
      }
    } catch (RuntimeException e) {
      failed.add(path + ": " + e + " at " + e.getStackTrace()[0]);
    }
  }
}
