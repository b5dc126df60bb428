package org.intercusp.exchange.proposal;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Places of a treatment file by name: members, and entries of lists by their id, so that a place
 * stays the same whatever is put in before it. Ids have no slash.
 */
final class Placing {

  static final JsonMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private Placing() {}

  /**
   * A place where two files differ.
   *
   * @param pointerBefore JSON pointer into the first, of the nearest place that is there
   * @param pointerAfter JSON pointer into the second, of the nearest place that is there
   */
  record Difference(
      String path,
      @Nullable JsonNode before,
      @Nullable JsonNode after,
      String pointerBefore,
      String pointerAfter) {}

  /** Where two files differ, in the order of the second. */
  static List<Difference> between(JsonNode before, JsonNode after) {
    List<Difference> found = new ArrayList<>();
    compare(new Difference("", before, after, "", ""), found);
    return found;
  }

  private static void compare(Difference at, List<Difference> found) {
    JsonNode before = at.before();
    JsonNode after = at.after();
    if (before == null || after == null) {
      found.add(at);
    } else if (before.isObject() && after.isObject()) {
      Set<String> names = new LinkedHashSet<>(after.propertyNames());
      names.addAll(before.propertyNames());
      for (String name : names) {
        compare(step(at, name, before.get(name), after.get(name), name, name), found);
      }
    } else if (isNamed(before) && isNamed(after)) {
      Set<String> ids = new LinkedHashSet<>();
      after.forEach(one -> ids.add(id(one)));
      before.forEach(one -> ids.add(id(one)));
      for (String id : ids) {
        int was = index(before, id);
        int is = index(after, id);
        compare(step(at, id, before.get(was), after.get(is), "" + was, "" + is), found);
      }
    } else if (!same(before, after)) {
      found.add(at);
    }
  }

  private static Difference step(
      Difference at,
      String name,
      @Nullable JsonNode before,
      @Nullable JsonNode after,
      String stepBefore,
      String stepAfter) {
    return new Difference(
        at.path() + "/" + name,
        before,
        after,
        before == null ? at.pointerBefore() : at.pointerBefore() + "/" + stepBefore,
        after == null ? at.pointerAfter() : at.pointerAfter() + "/" + stepAfter);
  }

  /** A list whose entries have ids; an empty one may become one. */
  private static boolean isNamed(JsonNode list) {
    return list.isArray() && list.valueStream().allMatch(one -> one.path("id").isString());
  }

  private static String id(JsonNode entry) {
    return entry.path("id").asString("");
  }

  private static int index(JsonNode list, String id) {
    for (int i = 0; i < list.size(); i++) {
      if (id.equals(id(list.get(i)))) {
        return i;
      }
    }
    return -1;
  }

  /** Whether two values say the same; numbers by size. */
  static boolean same(@Nullable JsonNode one, @Nullable JsonNode other) {
    if (one == null || other == null) {
      return one == null && other == null;
    }
    return canonical(one).equals(canonical(other));
  }

  /** A value as a text that is the same for the same value. */
  static String canonical(@Nullable JsonNode value) {
    if (value == null) {
      return "";
    }
    if (value.isNumber()) {
      BigDecimal number = value.decimalValue();
      return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }
    if (value.isObject()) {
      List<String> parts = new ArrayList<>();
      value.properties().forEach(one -> parts.add(one.getKey() + ":" + canonical(one.getValue())));
      return "{" + String.join(",", parts.stream().sorted().toList()) + "}";
    }
    if (value.isArray()) {
      List<String> parts = new ArrayList<>();
      value.forEach(one -> parts.add(canonical(one)));
      return "[" + String.join(",", parts) + "]";
    }
    return value.toString();
  }

  /** What stands at a path. */
  static Optional<JsonNode> at(JsonNode root, String path) {
    JsonNode at = root;
    for (String step : steps(path)) {
      JsonNode next = at.isArray() ? at.get(index(at, step)) : at.get(step);
      if (next == null) {
        return Optional.empty();
      }
      at = next;
    }
    return Optional.of(at);
  }

  private static List<String> steps(String path) {
    return path.isEmpty() ? List.of() : List.of(path.substring(1).split("/", -1));
  }

  /** Puts a value at a path, or takes it away; false where there is no such place. */
  static boolean put(ObjectNode root, String path, @Nullable JsonNode value) {
    List<String> steps = steps(path);
    JsonNode at = root;
    for (String step : steps.subList(0, steps.size() - 1)) {
      JsonNode next = at.isArray() ? at.get(index(at, step)) : at.get(step);
      if (next == null && at instanceof ObjectNode object && value != null) {
        next = object.putObject(step);
      }
      if (next == null) {
        return false;
      }
      at = next;
    }
    String last = steps.get(steps.size() - 1);
    if (at instanceof ObjectNode object) {
      if (value == null) {
        object.remove(last);
      } else {
        object.set(last, value);
      }
      return true;
    }
    return at instanceof ArrayNode list && put(list, last, value);
  }

  private static boolean put(ArrayNode list, String id, @Nullable JsonNode value) {
    int there = index(list, id);
    if (value == null) {
      if (there >= 0) {
        list.remove(there);
      }
    } else if (there >= 0) {
      list.set(there, value);
    } else {
      list.insert(behind(list, value), value);
    }
    return true;
  }

  /** Behind the entries of earlier days, where the entries have days. */
  private static int behind(ArrayNode list, JsonNode entry) {
    String day = entry.path("date").asString("");
    int at = list.size();
    while (!day.isEmpty()
        && at > 0
        && Objects.compare(list.get(at - 1).path("date").asString(""), day, String::compareTo)
            > 0) {
      at--;
    }
    return at;
  }
}
