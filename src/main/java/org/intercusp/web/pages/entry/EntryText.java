package org.intercusp.web.pages.entry;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Turns what was typed into the JSON of an entry. It judges only how a number is written and that
 * "none" stands alone; ranges, codes, dates and references are the reader's.
 *
 * @param entry the entry, members that are left empty being absent
 * @param faults what cannot be said in JSON, by the name of the field
 */
record EntryText(ObjectNode entry, Map<String, String> faults) {

  /** The one rule for numbers, which also stands on the form. */
  static final String NUMBERS =
      "Write 2.5 or 2,5: at most one decimal mark and two digits behind it.";

  private static final Pattern DECIMAL = Pattern.compile("[-+]?\\d{1,4}([.,]\\d{1,2})?");
  private static final Pattern WHOLE = Pattern.compile("[-+]?\\d{1,4}");

  static EntryText of(Sheet sheet, Typed typed) {
    EntryText text = new EntryText(JsonNodeFactory.instance.objectNode(), new LinkedHashMap<>());
    sheet.fields().forEach(field -> text.put(text.entry, field, field.path(), typed));
    for (Sheet.Group group : sheet.groups()) {
      int rows = typed.rows(group.list());
      ArrayNode list = rows == 0 ? null : text.entry.putArray(group.list());
      for (int row = 0; list != null && row < rows; row++) {
        ObjectNode node = list.addObject();
        String at = group.list() + "/" + row;
        group.fields().forEach(field -> text.put(node, field, at + "/" + field.path(), typed));
      }
    }
    return text;
  }

  /**
   * The same, where what was seen cannot have been seen after today, nor after the day the record
   * speaks of where that is later.
   */
  static EntryText of(Sheet sheet, Typed typed, LocalDate today, @Nullable LocalDate asOf) {
    EntryText text = of(sheet, typed);
    boolean ahead = asOf != null && asOf.isAfter(today);
    LocalDate last = asOf != null && ahead ? asOf : today;
    LocalDate day = Placed.day(text.entry.get(sheet.date()));
    if (day != null && day.isAfter(last)) {
      text.faults.put(
          sheet.date(),
          "%s is still to come: %s %s."
              .formatted(day, ahead ? "the record speaks of" : "today is", last));
    }
    return text;
  }

  private void put(ObjectNode parent, Field field, String name, Typed typed) {
    int step = field.path().indexOf('/');
    String text = typed.text(name);
    boolean given = !text.isEmpty();
    if (step > 0) {
      if (given || field.needed()) {
        String outer = field.path().substring(0, step);
        ObjectNode inner =
            parent.has(outer) ? (ObjectNode) parent.get(outer) : parent.putObject(outer);
        put(inner, field, field.path().substring(step + 1), name, typed);
      }
    } else if (given) {
      put(parent, field, field.path(), name, typed);
    }
  }

  private void put(ObjectNode parent, Field field, String member, String name, Typed typed) {
    String text = typed.text(name);
    switch (field.kind()) {
      case BOXES -> boxes(parent, member, name, typed.texts(name));
      case FLAG -> {
        if (text.equals("true") || text.equals("false")) {
          parent.put(member, Boolean.parseBoolean(text));
        } else {
          word(parent, member, text);
        }
      }
      case LENGTH, HOURS -> number(parent, member, name, text, DECIMAL, NUMBERS);
      case WHOLE -> number(parent, member, name, text, WHOLE, "Write a whole number.");
      case LINES -> word(parent, member, text.replace("\r\n", "\n"));
      case DATE, TEXT, CHOICE -> word(parent, member, text);
    }
  }

  private static void word(ObjectNode parent, String member, String text) {
    if (!text.isEmpty()) {
      parent.put(member, text);
    }
  }

  private void number(
      ObjectNode parent, String member, String name, String text, Pattern form, String rule) {
    String plain = text.replace('\u2212', '-');
    if (form.matcher(plain).matches()) {
      parent.put(member, new BigDecimal(plain.replace(',', '.')));
    } else if (!text.isEmpty()) {
      // Kept as a text, which the reader refuses too: what is typed is never silently dropped.
      parent.put(member, text);
      faults.put(name, "\u201c" + cut(text) + "\u201d is not a number here. " + rule);
    }
  }

  private void boxes(ObjectNode parent, String member, String name, List<String> ticked) {
    ArrayNode list = parent.putArray(member);
    if (ticked.contains(Field.NONE) && ticked.size() > 1) {
      faults.put(name, "Tick none, or the signs that were found.");
    }
    ticked.stream().filter(one -> !one.equals(Field.NONE)).forEach(list::add);
  }

  private static String cut(String text) {
    return text.codePointCount(0, text.length()) <= 40
        ? text
        : text.substring(0, text.offsetByCodePoints(0, 40)) + "\u2026";
  }
}
