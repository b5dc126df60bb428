package org.intercusp.web.pages.entry;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A form as the page shows it, with what was typed and what is wrong with it.
 *
 * @param faults in the order of the fields, those of no field last
 */
public record FormView(String title, List<Block> blocks, List<Rows> groups, List<Fault> faults) {

  /** Fields under a heading. */
  public record Block(String title, String hint, List<FieldView> fields) {}

  /**
   * Rows of a group.
   *
   * @param list its member in the file, which its buttons name
   */
  public record Rows(String list, String title, String one, List<Row> rows) {}

  /** One row. */
  public record Row(int index, String title, List<FieldView> fields) {}

  /**
   * Something to mend.
   *
   * @param target id of the field, empty where there is none
   */
  public record Fault(String target, String label, String words) {}

  /** A box or choice and whether it is taken. */
  public record Choice(String id, String code, String label, boolean taken) {}

  /**
   * One field.
   *
   * @param fault what is wrong with it, empty when nothing is
   * @param first whether the page puts the cursor here
   */
  public record FieldView(
      String id,
      String name,
      String label,
      String kind,
      String value,
      String unit,
      String hint,
      boolean needed,
      List<Choice> choices,
      String fault,
      boolean first) {

    /** The keys a phone shows; one for decimals may lack the minus sign, so it is not asked for. */
    public @Nullable String keys() {
      return switch (kind) {
        case "whole" -> "numeric";
        case "length", "hours" -> hint.contains("From -") ? "text" : "decimal";
        default -> null;
      };
    }

    /**
     * Ids of the texts that describe it, for {@code aria-describedby}; null when there are none.
     */
    public @Nullable String describedBy() {
      String both =
          Stream.of(hint.isEmpty() ? "" : id + "-hint", fault.isEmpty() ? "" : id + "-fault")
              .filter(each -> !each.isEmpty())
              .reduce((a, b) -> a + " " + b)
              .orElse("");
      return both.isEmpty() ? null : both;
    }
  }

  /** Puts a form together. */
  static final class Printer {

    private final Sheet sheet;
    private final Typed typed;
    private final Map<String, String> faults;
    private final Ranges ranges;
    private final String cursor;

    /**
     * Takes what the form shows.
     *
     * @param cursor name of the field the cursor goes to, empty for none
     */
    Printer(Sheet sheet, Typed typed, Map<String, String> faults, Ranges ranges, String cursor) {
      this.sheet = sheet;
      this.typed = typed;
      this.faults = faults;
      this.ranges = ranges;
      this.cursor = cursor;
    }

    FormView print() {
      List<Block> blocks =
          sheet.sections().stream()
              .map(
                  section ->
                      new Block(
                          section.title(),
                          section.hint(),
                          section.fields().stream()
                              .map(field -> view(field, field, sheet.shape()))
                              .toList()))
              .toList();
      List<Rows> groups = sheet.groups().stream().map(this::rows).toList();
      return new FormView(sheet.title(), blocks, groups, listed(blocks, groups));
    }

    private Rows rows(Sheet.Group group) {
      List<Row> rows =
          IntStream.range(0, typed.rows(group.list()))
              .mapToObj(
                  index ->
                      new Row(
                          index,
                          group.one() + " " + (index + 1),
                          group.fields().stream()
                              .map(
                                  field ->
                                      view(
                                          field,
                                          field.under(group.list() + "/" + index),
                                          group.shape()))
                              .toList()))
              .toList();
      return new Rows(group.list(), group.title(), group.one(), rows);
    }

    private FieldView view(Field plain, Field field, String shape) {
      String name = field.path();
      String range = ranges.of(shape, plain);
      String hint =
          Stream.of(field.hint(), range.isEmpty() ? "" : "From " + range + ".")
              .filter(each -> !each.isEmpty())
              .reduce((a, b) -> a + " " + b)
              .orElse("");
      return new FieldView(
          id(name),
          name,
          field.label(),
          field.kind().name().toLowerCase(Locale.ROOT),
          typed.text(name),
          field.unit(),
          hint,
          field.needed(),
          choices(field),
          faults.getOrDefault(name, ""),
          name.equals(cursor));
    }

    private List<Choice> choices(Field field) {
      List<Option> options = new ArrayList<>(field.options());
      if (field.kind() == Field.Kind.BOXES) {
        options.add(new Option(Field.NONE, "none found"));
      }
      List<String> taken = typed.texts(field.path());
      return options.stream()
          .map(
              option ->
                  new Choice(
                      id(field.path()) + "-" + option.code(),
                      option.code(),
                      option.label(),
                      taken.contains(option.code())))
          .toList();
    }

    private List<Fault> listed(List<Block> blocks, List<Rows> groups) {
      List<Fault> listed = new ArrayList<>();
      Stream<FieldView> all =
          Stream.concat(
              blocks.stream().flatMap(block -> block.fields().stream()),
              groups.stream()
                  .flatMap(group -> group.rows().stream())
                  .flatMap(row -> row.fields().stream()));
      List<String> known = new ArrayList<>();
      all.filter(field -> !field.fault().isEmpty())
          .forEach(
              field -> {
                known.add(field.name());
                String target =
                    field.kind().equals("boxes") ? field.choices().get(0).id() : field.id();
                listed.add(new Fault(target, field.label(), field.fault()));
              });
      faults.forEach(
          (name, words) -> {
            if (!known.contains(name)) {
              listed.add(new Fault("", name.isEmpty() ? "The record" : name, words));
            }
          });
      return listed;
    }

    private static String id(String name) {
      return "f-" + name.replace('/', '-');
    }
  }
}
