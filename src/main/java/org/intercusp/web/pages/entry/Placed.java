package org.intercusp.web.pages.entry;

import java.time.DateTimeException;
import java.time.LocalDate;
import org.intercusp.finding.Finding;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A treatment file with one entry more, behind the entries of its day or before. Where the entry is
 * of a later day than the file speaks of, the file speaks of that day from now on.
 */
record Placed(ObjectNode file, String list, int index) {

  private static final String AS_OF = "asOf";

  /** Digits stay as they are written: 9.0 does not become 9. */
  private static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
          .build();

  /** The tree of a stored file. */
  static ObjectNode tree(String content) {
    return (ObjectNode) JSON.readTree(content);
  }

  /** A plain value as JSON. */
  static JsonNode node(Object value) {
    return JSON.valueToTree(value);
  }

  static Placed in(ObjectNode stored, Sheet sheet, ObjectNode entry) {
    ObjectNode file = stored.deepCopy();
    ArrayNode entries = (ArrayNode) file.get(sheet.list());
    LocalDate day = day(entry.get(sheet.date()));
    int index = entries.size();
    while (day != null && index > 0 && isAfter(entries.get(index - 1).get(sheet.date()), day)) {
      index--;
    }
    entries.insert(index, entry);
    if (day != null && file.has(AS_OF) && !isAfter(file.get(AS_OF), day)) {
      file.put(AS_OF, day.toString());
    }
    return new Placed(file, sheet.list(), index);
  }

  byte[] bytes() {
    return JSON.writeValueAsBytes(file);
  }

  /** The name of the field a fault is about; empty where it is none of the entry's. */
  String name(Finding fault) {
    String own = "/" + list + "/" + index + "/";
    String at = fault.pointer().text();
    if (fault.code().equals("duplicate-id")) {
      // Told of whichever of the two stands behind; the one being typed can be changed.
      return "id";
    }
    return at.startsWith(own) ? at.substring(own.length()) : "";
  }

  private static boolean isAfter(@Nullable JsonNode date, LocalDate day) {
    LocalDate other = day(date);
    return other != null && other.isAfter(day);
  }

  /** A date that exists; else null. */
  static @Nullable LocalDate day(@Nullable JsonNode date) {
    try {
      return date == null || !date.isString() ? null : LocalDate.parse(date.stringValue());
    } catch (DateTimeException e) {
      return null;
    }
  }
}
