package org.intercusp.treatment.sheet;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;

/** Writes treatments as a sheet, so that tests can read them back. */
final class SheetWriting {

  private static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
          .build();

  private final List<Map<String, String>> rows = new ArrayList<>();

  /** Adds the rows of these kinds of a treatment. */
  SheetWriting add(Treatment treatment, SheetKind... kinds) {
    JsonNode tree = JSON.readTree(new TreatmentWriter().write(treatment));
    for (SheetKind kind : kinds) {
      if (kind == SheetKind.TREATMENT) {
        row(treatment, kind, tree);
      } else {
        tree.path(kind.list()).forEach(record -> row(treatment, kind, record));
      }
    }
    return this;
  }

  private void row(Treatment treatment, SheetKind kind, JsonNode record) {
    Map<String, String> cells = new LinkedHashMap<>();
    cells.put("record", kind.word());
    cells.put("treatment", treatment.id());
    for (Map.Entry<String, JsonNode> member : record.properties()) {
      boolean other =
          kind == SheetKind.TREATMENT
              && (member.getValue().isArray() || Set.of("format", "id").contains(member.getKey()));
      if (!other) {
        cell(member.getKey(), member.getValue(), cells);
      }
    }
    rows.add(cells);
  }

  private static void cell(String column, JsonNode value, Map<String, String> cells) {
    if (value.isObject()) {
      value.properties().forEach(m -> cell(column + "." + m.getKey(), m.getValue(), cells));
    } else if (value.isArray() && !value.isEmpty() && value.get(0).isObject()) {
      for (int i = 0; i < value.size(); i++) {
        cell(column + "." + (i + 1), value.get(i), cells);
      }
    } else if (value.isArray()) {
      List<String> words = new ArrayList<>();
      value.forEach(word -> words.add(word.asString()));
      cells.put(column, words.isEmpty() ? "none" : String.join("|", words));
    } else {
      cells.put(column, value.isNumber() ? value.decimalValue().toPlainString() : value.asString());
    }
  }

  /** The sheet, with a header of all the columns its rows fill. */
  String text(char delimiter) {
    Set<String> header = new LinkedHashSet<>(List.of("record", "treatment"));
    rows.forEach(row -> header.addAll(row.keySet()));
    return text(new ArrayList<>(header), delimiter);
  }

  /** The sheet under a header of one's own. */
  String text(List<String> header, char delimiter) {
    StringBuilder out = new StringBuilder();
    CSVFormat format =
        CSVFormat.RFC4180.builder().setDelimiter(delimiter).setRecordSeparator("\n").get();
    try (CSVPrinter printer = new CSVPrinter(out, format)) {
      printer.printRecord(header);
      for (Map<String, String> row : rows) {
        printer.printRecord(header.stream().map(name -> row.getOrDefault(name, "")).toList());
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }
}
