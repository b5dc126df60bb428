package org.intercusp.treatment.shape;

import org.intercusp.finding.Pointer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ObjectNode;

/**
 * What may stand at one place of a file: it reads and checks, writes, and says itself as JSON
 * Schema.
 *
 * @param <T> what it becomes
 */
public sealed interface Shape<T> permits Words, Numbers, Flag, Items, Pair, Keyed, Fields, Choice {

  /** Reads a node, adding what is wrong to the reading; null where something is. */
  @Nullable T read(Node node, Pointer at, Reading reading);

  /** Writes a value as this shape reads it. */
  void write(T value, JsonGenerator out);

  /** What JSON Schema (2020-12) says of it. */
  ObjectNode schema(SchemaPage page);
}
