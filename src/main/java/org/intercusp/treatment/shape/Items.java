package org.intercusp.treatment.shape;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Source;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ObjectNode;

/**
 * A list of so many at least and at most.
 *
 * @param <T> what each becomes
 */
public record Items<T>(Shape<T> item, int least, int most) implements Shape<List<T>> {

  /** A list that may be empty. */
  public static <T> Items<T> upTo(int most, Shape<T> item) {
    return new Items<>(item, 0, most);
  }

  /** A list of exactly so many. */
  public static <T> Items<T> exactly(int count, Shape<T> item) {
    return new Items<>(item, count, count);
  }

  @Override
  public @Nullable List<T> read(Node node, Pointer at, Reading reading) {
    if (!(node instanceof Node.Arr list)) {
      reading.wrongType(at, node, expected());
      return null;
    }
    int size = list.items().size();
    if (size < least || size > most) {
      reading.outOfRange(
          at, new Node.Str("a list of " + size), expected(), null, Source.COMMON_PRACTICE);
    }
    List<T> values = new ArrayList<>(Math.min(size, most));
    for (int i = 0; i < size; i++) {
      T value = item.read(list.items().get(i), at.child(i), reading);
      if (value != null) {
        values.add(value);
      }
    }
    return values;
  }

  private String expected() {
    return "a list of " + (least == most ? "exactly " : least + " to ") + most;
  }

  @Override
  public void write(List<T> value, JsonGenerator out) {
    out.writeStartArray();
    value.forEach(each -> item.write(each, out));
    out.writeEndArray();
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    ObjectNode schema = SchemaPage.object().put("type", "array");
    schema.set("items", item.schema(page));
    if (least > 0) {
      schema.put("minItems", least);
    }
    return schema.put("maxItems", most);
  }
}
