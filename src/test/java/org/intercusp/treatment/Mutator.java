package org.intercusp.treatment;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Changes a file somewhere at random, for better or worse; the same for the same seed. */
public final class Mutator {

  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private static final List<String> NUMBERS =
      List.of(
          "0",
          "-0",
          "1",
          "2",
          "3",
          "10.0",
          "9.50",
          "2.5",
          "-1",
          "0.1",
          "0.09",
          "0.7",
          "1.01",
          "2",
          "2.01",
          "3.01",
          "4",
          "5",
          "5.01",
          "6",
          "7",
          "8",
          "9",
          "10",
          "11",
          "12",
          "14",
          "14.01",
          "19.999999999999999999",
          "20",
          "20.000000000000000001",
          "-20",
          "-20.5",
          "24",
          "24.5",
          "25",
          "26",
          "52",
          "53",
          "60",
          "61",
          "80",
          "81",
          "100",
          "101",
          "120",
          "180",
          "181",
          "200",
          "201",
          "400",
          "-400",
          "400.5",
          "10000",
          "10001",
          "1000000",
          "1000001",
          "123456789012345678");

  private static final List<String> TEXTS =
      List.of(
          "",
          " ",
          "x",
          " x",
          "x ",
          "a b",
          "a\nb",
          "a\n",
          "a\u0000",
          "a\u0085b",
          "a\u00a0",
          "\u202e",
          "😀",
          "1",
          "2a",
          "4a",
          "4g",
          "5s",
          "11",
          "18",
          "19",
          "48",
          "51",
          "55",
          "56",
          "85",
          "86",
          "91",
          "011",
          "male",
          "upper",
          "right",
          "twin-block",
          "retainer",
          "click",
          "le",
          "CS3",
          "II/1",
          "impacted",
          "bite-1",
          "app-1",
          "active",
          "a_b.c-d",
          "a/b",
          "https://harbour-lane.example/x",
          "urn:x:y",
          "urn:",
          "no uri",
          "x y:z",
          "2025-02-28",
          "2025-02-29",
          "2024-02-29",
          "1900-02-29",
          "2000-02-29",
          "2100-02-29",
          "1899-12-31",
          "2199-12-31",
          "2200-01-01",
          "2025-04-31",
          "2025-12-31",
          "2025-13-01",
          "2025-00-10",
          "2025-10-00",
          "2025-1-1",
          "2025-01-01T00:00:00",
          "2025-01-01\n",
          "+2025-01-01",
          "２０２５-01-01",
          "intercusp-treatment/1");

  private final Random random;

  public Mutator(long seed) {
    this.random = new Random(seed);
  }

  /** A changed copy. */
  public JsonNode change(JsonNode file) {
    JsonNode copy = file.deepCopy();
    int changes = 1 + random.nextInt(10) / 8;
    for (int i = 0; i < changes; i++) {
      changeOnce(copy);
    }
    return copy;
  }

  private void changeOnce(JsonNode root) {
    List<JsonNode> holders = new ArrayList<>();
    gather(root, holders);
    JsonNode holder = holders.get(random.nextInt(holders.size()));
    if (holder instanceof ObjectNode object) {
      changeMember(object);
    } else {
      changeItem((ArrayNode) holder);
    }
  }

  private static void gather(JsonNode node, List<JsonNode> holders) {
    if (node.isContainer()) {
      holders.add(node);
      node.forEach(child -> gather(child, holders));
    }
  }

  private void changeMember(ObjectNode object) {
    List<String> names = List.copyOf(object.propertyNames());
    if (names.isEmpty() || random.nextInt(12) == 0) {
      object.set(pick(List.of("extra", "note", "11", "19", "S", "Q", "id", "overjet")), any());
      return;
    }
    String name = pick(names);
    switch (random.nextInt(8)) {
      case 0, 1 -> object.remove(name);
      case 2 -> {
        JsonNode value = object.remove(name);
        object.set(name + pick(List.of("x", " ", "s")), value);
      }
      default -> object.set(name, like(object.get(name)));
    }
  }

  private void changeItem(ArrayNode list) {
    int size = list.size();
    if (size == 0 || random.nextInt(6) == 0) {
      list.add(
          size > 0 && random.nextBoolean() ? list.get(random.nextInt(size)).deepCopy() : any());
    } else if (random.nextInt(5) == 0) {
      list.remove(random.nextInt(size));
    } else if (random.nextInt(40) == 0) {
      JsonNode item = list.get(0);
      while (list.size() < 600) {
        list.add(item.deepCopy());
      }
    } else {
      int at = random.nextInt(size);
      list.set(at, like(list.get(at)));
    }
  }

  /** Mostly another value of the same kind, else of any. */
  private JsonNode like(JsonNode value) {
    if (random.nextInt(5) == 0) {
      return any();
    }
    if (value.isNumber()) {
      return number();
    }
    if (value.isString()) {
      return text(value.stringValue());
    }
    return value.isBoolean() ? JSON.booleanNode(random.nextBoolean()) : any();
  }

  private JsonNode number() {
    return JSON.numberNode(new BigDecimal(pick(NUMBERS)));
  }

  private JsonNode text(String given) {
    return switch (random.nextInt(8)) {
      case 0 -> JSON.stringNode(given + pick(List.of(" ", "\n", "x", "\u0001", "😀")));
      case 1 -> JSON.stringNode("x".repeat(pick(List.of(63, 64, 65, 499, 500, 501, 4000, 4001))));
      case 2 -> JSON.stringNode("😀".repeat(pick(List.of(499, 500, 501, 4000, 4001))));
      default -> JSON.stringNode(pick(TEXTS));
    };
  }

  private JsonNode any() {
    return switch (random.nextInt(7)) {
      case 0 -> JSON.nullNode();
      case 1 -> JSON.booleanNode(random.nextBoolean());
      case 2, 3 -> number();
      case 4 -> JSON.objectNode();
      case 5 -> JSON.arrayNode();
      default -> text("");
    };
  }

  private <T> T pick(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }
}
