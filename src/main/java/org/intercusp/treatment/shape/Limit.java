package org.intercusp.treatment.shape;

import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What the JSON Schema says and the reader checks: a closed list, or a pattern and lengths.
 *
 * @param same says what the pattern says, in less time
 */
record Limit(
    List<String> codes,
    @Nullable Pattern pattern,
    int least,
    int most,
    @Nullable String format,
    @Nullable String name,
    @Nullable Predicate<String> same) {

  Limit(List<String> codes) {
    this(codes, null, 0, 0, null, null, null);
  }

  boolean allows(String text) {
    if (!codes.isEmpty()) {
      return codes.contains(text);
    }
    int length = text.codePointCount(0, text.length());
    return length >= least && length <= most && matches(text);
  }

  private boolean matches(String text) {
    if (same != null) {
      return same.test(text);
    }
    return pattern == null || pattern.matcher(text).matches();
  }

  /** The same as JSON Schema. */
  ObjectNode schema() {
    ObjectNode schema = SchemaPage.object().put("type", "string");
    if (codes.size() == 1) {
      return schema.put("const", codes.get(0));
    }
    if (!codes.isEmpty()) {
      ArrayNode list = schema.putArray("enum");
      codes.forEach(list::add);
      return schema;
    }
    if (format != null) {
      schema.put("format", format);
    }
    if (pattern != null) {
      schema.put("pattern", pattern.pattern());
    }
    return schema.put("minLength", least).put("maxLength", most);
  }
}
