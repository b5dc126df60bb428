package org.intercusp.web.pages;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * One place of the record that is another in a later version.
 *
 * @param place in words
 * @param before empty where it was not there
 * @param after empty where it is not there any more
 */
public record RecordChange(String place, String before, String after) {

  /** Entries of a list are known by one of these, else by their place. */
  private static final List<String> NAMES = List.of("id", "tooth", "measure", "finding");

  private static final Set<String> LISTS =
      Set.of("bites", "appliances", "stages", "reviews", "films", "models", "outcomes");

  /** In the order of the record; numbers are compared by size. */
  static List<RecordChange> between(JsonNode before, JsonNode after) {
    List<RecordChange> changes = new ArrayList<>();
    compare("", Described.record(), before, after, changes);
    return changes;
  }

  /**
   * What is another at one place of the record.
   *
   * @param path from the top, entries of lists by their id
   */
  static List<RecordChange> at(String path, @Nullable JsonNode before, @Nullable JsonNode after) {
    List<RecordChange> changes = new ArrayList<>();
    compare(words(path), Described.at(path), before, after, changes);
    return changes;
  }

  /** A path as people say it. */
  static String words(String path) {
    List<String> steps = List.of(path.substring(1).split("/", -1));
    String place = "";
    for (int i = 0; i < steps.size(); i++) {
      boolean name = i == 1 && LISTS.contains(steps.get(0));
      place = step(place, name ? steps.get(i) : Trade.words(steps.get(i)));
    }
    return place;
  }

  private static void compare(
      String place,
      Described as,
      @Nullable JsonNode before,
      @Nullable JsonNode after,
      List<RecordChange> to) {
    boolean objects = isObject(before) && isObject(after);
    boolean lists = isList(before) && isList(after);
    if (objects || lists) {
      Map<String, JsonNode> old = members(before);
      Map<String, JsonNode> now = members(after);
      Set<String> names = new LinkedHashSet<>(now.keySet());
      names.addAll(old.keySet());
      for (String name : names) {
        String step = step(place, objects ? Trade.words(name) : name);
        Described part = objects ? as.member(name) : as.entry();
        compare(step, part, old.get(name), now.get(name), to);
      }
    } else if (!same(before, after)) {
      to.add(new RecordChange(place, shown(before, as), shown(after, as)));
    }
  }

  private static boolean isObject(@Nullable JsonNode node) {
    return node != null && node.isObject();
  }

  /** A list of objects is compared entry by entry, one of words or numbers as a whole. */
  private static boolean isList(@Nullable JsonNode node) {
    return node != null && node.isArray() && node.valueStream().allMatch(JsonNode::isObject);
  }

  private static boolean same(@Nullable JsonNode before, @Nullable JsonNode after) {
    if (before == null || after == null) {
      return before == null && after == null;
    }
    if (before.isNumber() && after.isNumber()) {
      return number(before).compareTo(number(after)) == 0;
    }
    return before.equals(after);
  }

  private static BigDecimal number(JsonNode node) {
    return node.decimalValue();
  }

  private static Map<String, JsonNode> members(@Nullable JsonNode node) {
    Map<String, JsonNode> members = new LinkedHashMap<>();
    if (node == null) {
      return members;
    }
    if (node.isObject()) {
      node.properties().forEach(each -> members.put(each.getKey(), each.getValue()));
      return members;
    }
    for (JsonNode entry : node) {
      String name = name(entry);
      String unique = name;
      for (int i = 2; members.containsKey(unique); i++) {
        unique = name + " (" + i + ")";
      }
      members.put(unique, entry);
    }
    return members;
  }

  private static String name(JsonNode entry) {
    for (String member : NAMES) {
      JsonNode value = entry.path(member);
      if (value.isString()) {
        return member.equals("measure") ? Trade.words(value.stringValue()) : value.stringValue();
      }
    }
    return "entry";
  }

  private static String step(String place, String name) {
    return place.isEmpty()
        ? name.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + name.substring(1)
        : place + " › " + name;
  }

  /** A value for a person: numbers with their unit, members in words, entries on one line. */
  private static String shown(@Nullable JsonNode node, Described as) {
    if (node == null) {
      return "";
    }
    if (node.isBoolean()) {
      return node.booleanValue() ? "yes" : "no";
    }
    if (node.isNumber()) {
      return as.number(number(node).toPlainString());
    }
    if (node.isString()) {
      return node.stringValue();
    }
    List<String> parts = new ArrayList<>();
    if (node.isArray()) {
      node.forEach(each -> parts.add(shown(each, as.entry())));
      return node.isEmpty() ? "none" : String.join(", ", parts);
    }
    node.properties()
        .forEach(
            each ->
                parts.add(
                    Trade.words(each.getKey())
                        + " "
                        + shown(each.getValue(), as.member(each.getKey()))));
    return String.join("; ", parts);
  }
}
