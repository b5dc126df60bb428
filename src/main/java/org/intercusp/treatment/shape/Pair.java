package org.intercusp.treatment.shape;

import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.intercusp.finding.Pointer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ObjectNode;

/**
 * Two of the same kind in a list, such as the coordinates of a point.
 *
 * @param <P> what one of the two becomes
 * @param <T> what both become
 */
public record Pair<P, T>(
    Shape<P> part, BiFunction<P, P, T> join, Function<T, P> first, Function<T, P> second)
    implements Shape<T> {

  @Override
  public @Nullable T read(Node node, Pointer at, Reading reading) {
    int before = reading.count();
    List<P> parts = Items.exactly(2, part).read(node, at, reading);
    if (parts == null || reading.count() != before) {
      return null;
    }
    return join.apply(parts.get(0), parts.get(1));
  }

  @Override
  public void write(T value, JsonGenerator out) {
    Items.exactly(2, part).write(List.of(first.apply(value), second.apply(value)), out);
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    return Items.exactly(2, part).schema(page);
  }
}
