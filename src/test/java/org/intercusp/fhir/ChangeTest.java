package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

class ChangeTest {

  @Test
  void oneNumberChangedChangesOneResource() {
    JsonNode file = Samples.wholeJson();
    Map<String, String> before = resources(Samples.read(file));
    List<String> numbers = new ArrayList<>();
    numbers(file, "", numbers);
    int tried = 0;
    for (String pointer : numbers) {
      JsonNode changed = file.deepCopy();
      replace(changed, pointer);
      ReadResult read = new TreatmentReader().read(Samples.JSON.writeValueAsBytes(changed));
      if (read instanceof ReadResult.Accepted accepted) {
        List<String> differing = differing(before, resources(accepted.treatment()));
        if (pointer.endsWith("/months")) {
          // The goals of a stage are due when it ends.
          int goals = changed.at(pointer.replace("/months", "/goals")).size();
          assertThat(differing).as(pointer).hasSize(1 + goals);
        } else {
          assertThat(differing).as(pointer).hasSize(1);
        }
        tried++;
      }
    }
    assertThat(tried).isGreaterThan(100);
  }

  @Test
  void aReviewPutInFrontRenamesNothing() {
    ObjectNode file = (ObjectNode) Samples.wholeJson();
    Map<String, String> before = resources(Samples.read(file));
    ArrayNode reviews = (ArrayNode) file.get("reviews");
    ObjectNode inserted = ((ObjectNode) reviews.get(2)).deepCopy();
    inserted.put("id", "R0");
    reviews.insert(0, inserted);
    Map<String, String> after = resources(Samples.read(file));
    assertThat(after.keySet()).containsAll(before.keySet());
    // Only the plan, which lists the visits, is written anew.
    assertThat(differing(before, after))
        .filteredOn(before::containsKey)
        .singleElement()
        .satisfies(url -> assertThat(before.get(url)).contains("treatment-plan"));
  }

  @Test
  void twoClinicsWithTheSameTreatmentIdNeverMeet() {
    ObjectNode file = (ObjectNode) Samples.wholeJson();
    List<Ledger.Line> one = Ledger.of(Samples.bundle(Samples.read(file), BundleForm.TRANSACTION));
    ((ObjectNode) file.get("clinic").get("identifier")).put("value", "HL-2");
    List<Ledger.Line> two = Ledger.of(Samples.bundle(Samples.read(file), BundleForm.TRANSACTION));
    assertThat(one).hasSameSizeAs(two).doesNotContainAnyElementsOf(two);
  }

  private static Map<String, String> resources(Treatment treatment) {
    Map<String, String> resources = new LinkedHashMap<>();
    for (Bundle.BundleEntryComponent entry :
        Samples.bundle(treatment, BundleForm.COLLECTION).getEntry()) {
      String json = Samples.FHIR.newJsonParser().encodeResourceToString(entry.getResource());
      assertThat(resources.put(entry.getFullUrl(), json)).as("a fullUrl used twice").isNull();
    }
    return resources;
  }

  private static List<String> differing(Map<String, String> before, Map<String, String> after) {
    TreeMap<String, String> all = new TreeMap<>(before);
    all.putAll(after);
    return all.keySet().stream()
        .filter(url -> !before.getOrDefault(url, "").equals(after.getOrDefault(url, "")))
        .toList();
  }

  private static void numbers(JsonNode node, String pointer, List<String> found) {
    if (node.isNumber()) {
      found.add(pointer);
    } else if (node instanceof ObjectNode object) {
      object.properties().forEach(p -> numbers(p.getValue(), pointer + "/" + p.getKey(), found));
    } else if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        numbers(array.get(i), pointer + "/" + i, found);
      }
    }
  }

  private static void replace(JsonNode root, String pointer) {
    int last = pointer.lastIndexOf('/');
    JsonNode parent = root.at(pointer.substring(0, last));
    String name = pointer.substring(last + 1);
    BigDecimal number = root.at(pointer).decimalValue();
    BigDecimal other =
        number.signum() > 0 ? number.subtract(BigDecimal.ONE) : number.add(BigDecimal.ONE);
    JsonNode value = JsonNodeFactory.instance.numberNode(other);
    if (parent instanceof ObjectNode object) {
      object.set(name, value);
    } else {
      ((ArrayNode) parent).set(Integer.parseInt(name), value);
    }
  }
}
