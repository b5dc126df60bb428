package org.intercusp.rules;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.intercusp.dentition.Tooth;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.databind.node.StringNode;

/** Treatments changed as JSON: mirrored, written otherwise, shaken; read again by the reader. */
final class JsonTreatments {

  private static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
          .build();
  private static final Set<String> WHOLE =
      Set.of(
          "months",
          "reviewWeeks",
          "fromReview",
          "plannedTurns",
          "daysPerTurn",
          "retentionYears",
          "screwTurns",
          "teethEdgeToEdge",
          "teethInAnteriorCrossbite",
          "aestheticComponent",
          "scores");
  private static final Set<String> MIDLINES = Set.of("lowerMidlineHabitual", "lowerMidlineInBite");

  private JsonTreatments() {}

  static Optional<Treatment> read(JsonNode tree) {
    ReadResult result = new TreatmentReader().read(JSON.writeValueAsBytes(tree));
    return result instanceof ReadResult.Accepted accepted
        ? Optional.of(accepted.treatment())
        : Optional.empty();
  }

  static JsonNode tree(Treatment treatment) {
    return JSON.readTree(new TreatmentWriter().write(treatment));
  }

  /** The same mouth in a mirror. */
  static JsonNode mirrored(JsonNode node, String member) {
    if (node instanceof ObjectNode object) {
      ObjectNode mirror = JSON.createObjectNode();
      object
          .properties()
          .forEach(e -> mirror.set(otherName(e.getKey()), mirrored(e.getValue(), e.getKey())));
      return mirror;
    }
    if (node instanceof ArrayNode array) {
      List<JsonNode> items = new ArrayList<>();
      array.forEach(item -> items.add(mirrored(item, member)));
      boolean contacts = items.size() == 5 && (member.equals("upper") || member.equals("lower"));
      if (contacts) {
        Collections.reverse(items);
      }
      return JSON.createArrayNode().addAll(items);
    }
    if (node.isNumber() && MIDLINES.contains(member)) {
      return JSON.getNodeFactory().numberNode(node.decimalValue().negate());
    }
    return node.isString() ? StringNode.valueOf(otherText(node.stringValue(), member)) : node;
  }

  private static String otherName(String name) {
    return switch (name) {
      case "right" -> "left";
      case "left" -> "right";
      case "buccalRight" -> "buccalLeft";
      case "buccalLeft" -> "buccalRight";
      default -> Tooth.isCode(name) ? new Tooth(name).mirrored().code() : name;
    };
  }

  private static String otherText(String text, String member) {
    if (member.equals("side")) {
      return text.equals("right") ? "left" : "right";
    }
    boolean tooth = Tooth.isCode(text);
    return tooth && (member.contains("ooth") || member.contains("eeth"))
        ? new Tooth(text).mirrored().code()
        : text;
  }

  /** Every decimal number with more zeros behind. */
  static JsonNode rewritten(JsonNode node, String member) {
    if (WHOLE.contains(member)) {
      return node;
    }
    if (node instanceof ObjectNode object) {
      ObjectNode same = JSON.createObjectNode();
      object.properties().forEach(e -> same.set(e.getKey(), rewritten(e.getValue(), e.getKey())));
      return same;
    }
    if (node instanceof ArrayNode array) {
      ArrayNode same = JSON.createArrayNode();
      array.forEach(item -> same.add(rewritten(item, member)));
      return same;
    }
    if (!node.isNumber()) {
      return node;
    }
    BigDecimal number = node.decimalValue();
    return JSON.getNodeFactory().numberNode(number.setScale(Math.max(0, number.scale()) + 2));
  }

  /** Changes a few members at random: numbers to extremes, dates by years, members away. */
  static void shake(JsonNode node, Random random, double share) {
    if (node instanceof ArrayNode array) {
      array.forEach(item -> shake(item, random, share));
    } else if (node instanceof ObjectNode object) {
      for (String name : List.copyOf(object.propertyNames())) {
        JsonNode value = object.get(name);
        if (random.nextDouble() < share) {
          shake(object, name, value, random);
        } else {
          shake(value, random, share);
        }
      }
    }
  }

  private static void shake(ObjectNode object, String name, JsonNode value, Random random) {
    if (random.nextInt(3) == 0) {
      object.remove(name);
    } else if (value.isNumber()) {
      String[] extremes = {"-20", "-0.5", "0", "0.0", "1", "3.5", "19.9", "20", "80", "90", "180"};
      object.put(name, new BigDecimal(extremes[random.nextInt(extremes.length)]));
    } else if (value.isString() && value.stringValue().matches("\\d{4}-\\d\\d-\\d\\d")) {
      object.put(name, (2000 + random.nextInt(40)) + value.stringValue().substring(4));
    } else if (value.isBoolean()) {
      object.put(name, !value.booleanValue());
    } else if (value instanceof ArrayNode array) {
      array.removeAll();
    }
  }
}
