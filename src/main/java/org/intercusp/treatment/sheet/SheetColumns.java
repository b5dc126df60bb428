package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.intercusp.treatment.TreatmentSchema;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The columns a sheet may have, taken from the schema of the treatment file: a member's name, with
 * points between nested members ({@code molarRelation.right}) and a number from 1 within lists of
 * objects ({@code breakages.1.part}).
 */
public final class SheetColumns {

  /** The column that says what a row records. */
  static final String RECORD = "record";

  /** The column that says which treatment a row belongs to. */
  static final String TREATMENT = "treatment";

  /** Entries of a nested list that a template offers; a sheet may number on up to this. */
  private static final int MOST = 50;

  private final JsonNode schema = JsonMapper.shared().readTree(TreatmentSchema.text());
  private final Map<SheetKind, Map<String, Leaf>> columns = new EnumMap<>(SheetKind.class);

  private record Leaf(CellKind kind, JsonNode schema, Need need) {}

  /** Whether a row can do without the cell. */
  private enum Need {
    ALWAYS,
    WHERE_GIVEN
  }

  public SheetColumns() {
    for (SheetKind kind : SheetKind.values()) {
      Map<String, Leaf> found = new LinkedHashMap<>();
      JsonNode at =
          kind.list().isEmpty()
              ? schema
              : resolved(schema.path("properties").path(kind.list())).path("items");
      gather(resolved(at), "", Need.ALWAYS, found);
      found.remove("format");
      if (kind == SheetKind.TREATMENT) {
        found.remove("id");
      }
      columns.put(kind, found);
    }
  }

  private JsonNode resolved(JsonNode at) {
    JsonNode reference = at.path("$ref");
    return reference.isMissingNode() ? at : resolved(schema.at(reference.asString().substring(1)));
  }

  private void gather(JsonNode object, String prefix, Need outer, Map<String, Leaf> into) {
    Set<String> required = new LinkedHashSet<>();
    object.path("required").forEach(name -> required.add(name.asString()));
    for (Map.Entry<String, JsonNode> member : object.path("properties").properties()) {
      String name = prefix + member.getKey();
      Need need = required.contains(member.getKey()) ? outer : Need.WHERE_GIVEN;
      JsonNode at = resolved(member.getValue());
      switch (at.path("type").asString("")) {
        case "object" -> gather(at, name + ".", need, into);
        case "array" -> list(at, name, prefix, need, into);
        case "number", "integer" -> into.put(name, new Leaf(CellKind.NUMBER, at, need));
        case "boolean" -> into.put(name, new Leaf(CellKind.FLAG, at, need));
        default -> into.put(name, new Leaf(CellKind.TEXT, at, need));
      }
    }
  }

  /** Lists of the treatment's own records are rows, not columns. */
  private void list(JsonNode list, String name, String prefix, Need need, Map<String, Leaf> into) {
    JsonNode item = resolved(list.path("items"));
    if (!item.path("type").asString("").equals("object")) {
      into.put(name, new Leaf(CellKind.TEXTS, item, need));
    } else if (!prefix.isEmpty() || !ownRows().contains(name)) {
      gather(item, name + ".#.", Need.WHERE_GIVEN, into);
    }
  }

  private static Set<String> ownRows() {
    Set<String> names = new LinkedHashSet<>();
    for (SheetKind kind : SheetKind.values()) {
      names.add(kind.list());
    }
    names.addAll(List.of("films", "models", "outcomes", "acceptances"));
    return names;
  }

  /** What a column's cells are in rows of a kind; empty where such rows have no such column. */
  Optional<CellKind> kind(SheetKind kind, String column) {
    return leaf(kind, column).map(Leaf::kind);
  }

  private Optional<Leaf> leaf(SheetKind kind, String column) {
    return Optional.ofNullable(columns.getOrDefault(kind, Map.of()).get(pattern(column)));
  }

  /** Whether rows of a kind must fill the column. */
  public boolean isRequired(SheetKind kind, String column) {
    return leaf(kind, column).filter(leaf -> leaf.need() == Need.ALWAYS).isPresent();
  }

  /** What may stand in a column, in words; empty where rows of the kind have no such column. */
  public String allowed(SheetKind kind, String column) {
    return leaf(kind, column).map(leaf -> SheetWords.of(leaf.kind(), leaf.schema())).orElse("");
  }

  boolean isKnown(String column) {
    return column.equals(RECORD)
        || column.equals(TREATMENT)
        || columns.values().stream().anyMatch(leaves -> leaves.containsKey(pattern(column)));
  }

  /** The column with its numbers taken out; a number beyond the list's length stays. */
  private static String pattern(String column) {
    StringBuilder out = new StringBuilder();
    for (String step : column.split("\\.", -1)) {
      boolean number = step.matches("[1-9][0-9]?") && Integer.parseInt(step) <= MOST;
      out.append(out.isEmpty() ? "" : ".").append(number ? "#" : step);
    }
    return out.toString();
  }

  /** The header of a sheet with rows of these kinds; nested lists with two entries each. */
  public List<String> header(SheetKind... kinds) {
    Set<String> names = new LinkedHashSet<>(List.of(RECORD, TREATMENT));
    for (SheetKind kind : kinds) {
      List<String> patterns = List.copyOf(columns.getOrDefault(kind, Map.of()).keySet());
      for (String column : patterns) {
        String list = column.substring(0, Math.max(0, column.indexOf('#')));
        if (list.isEmpty()) {
          names.add(column);
        } else if (!names.contains(column.replace("#", "1"))) {
          List<String> entry = patterns.stream().filter(p -> p.startsWith(list + "#")).toList();
          entry.forEach(each -> names.add(each.replace("#", "1")));
          entry.forEach(each -> names.add(each.replace("#", "2")));
        }
      }
    }
    return new ArrayList<>(names);
  }
}
