package org.intercusp.web.pages.entry;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.BiPredicate;

/**
 * What stands in the fields of a form, by name, as it was typed. Rows of a group are counted from 0
 * without gaps.
 */
final class Typed {

  /** Rows of a group on a form; the file takes as many. */
  static final int MOST_ROWS = 50;

  private final Map<String, List<String>> values;

  private Typed(Map<String, List<String>> values) {
    this.values = values;
  }

  /** From the parameters of a request. */
  static Typed of(Map<String, List<String>> parameters, Sheet sheet) {
    return copy(parameters, sheet, (group, row) -> true);
  }

  /** Without the rows that are wholly empty. */
  Typed filled(Sheet sheet) {
    return copy(
        values,
        sheet,
        (group, row) ->
            group.fields().stream().anyMatch(field -> !text(name(group, row, field)).isEmpty()));
  }

  private static Typed copy(
      Map<String, List<String>> from, Sheet sheet, BiPredicate<Sheet.Group, Integer> wanted) {
    Typed typed = new Typed(new LinkedHashMap<>());
    sheet.fields().forEach(field -> typed.take(from, field.path(), field.path()));
    for (Sheet.Group group : sheet.groups()) {
      int to = 0;
      for (int row : rows(from, group.list())) {
        if (to < MOST_ROWS && wanted.test(group, row)) {
          int place = to++;
          group
              .fields()
              .forEach(
                  field -> typed.take(from, name(group, row, field), name(group, place, field)));
        }
      }
    }
    return typed;
  }

  /** From what the page proposes. */
  static Typed proposed(Map<String, String> proposals) {
    Map<String, List<String>> values = new LinkedHashMap<>();
    proposals.forEach((name, value) -> values.put(name, List.of(value)));
    return new Typed(values);
  }

  /** With an empty row more. */
  Typed withRow(Sheet.Group group) {
    Typed more = new Typed(new LinkedHashMap<>(values));
    int row = rows(group.list());
    if (row < MOST_ROWS) {
      group.fields().forEach(field -> more.values.put(name(group, row, field), List.of("")));
    }
    return more;
  }

  /** Without a row; those behind it move up. */
  Typed withoutRow(Sheet.Group group, int gone) {
    Typed fewer = new Typed(new LinkedHashMap<>(values));
    int rows = rows(group.list());
    for (int row = gone; row < rows; row++) {
      for (Field field : group.fields()) {
        List<String> next = values.get(name(group, row + 1, field));
        if (next == null) {
          fewer.values.remove(name(group, row, field));
        } else {
          fewer.values.put(name(group, row, field), next);
        }
      }
    }
    return fewer;
  }

  String text(String name) {
    return first(values, name);
  }

  List<String> texts(String name) {
    return values.getOrDefault(name, List.of());
  }

  /** How many rows a group has. */
  int rows(String group) {
    return rows(values, group).size();
  }

  private static String name(Sheet.Group group, int row, Field field) {
    return group.list() + "/" + row + "/" + field.path();
  }

  private void take(Map<String, List<String>> from, String name, String to) {
    List<String> found = from.get(name);
    if (found != null) {
      values.put(to, List.copyOf(found));
    }
  }

  private static String first(Map<String, List<String>> values, String name) {
    List<String> found = values.getOrDefault(name, List.of());
    return found.isEmpty() ? "" : found.get(0).strip();
  }

  private static List<Integer> rows(Map<String, List<String>> values, String group) {
    TreeSet<Integer> rows = new TreeSet<>();
    for (String name : values.keySet()) {
      String[] steps = name.split("/", -1);
      if (steps.length > 2 && steps[0].equals(group) && steps[1].matches("\\d{1,3}")) {
        rows.add(Integer.parseInt(steps[1]));
      }
    }
    return new ArrayList<>(rows);
  }
}
