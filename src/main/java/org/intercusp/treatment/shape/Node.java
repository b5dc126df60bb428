package org.intercusp.treatment.shape;

import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** JSON as it stood in the text: order kept, repeated members kept, digits kept. */
public sealed interface Node {

  /** An object, its members in the order of the text, repeated names included. */
  record Obj(List<Entry> entries) implements Node {
    /** The value of the first member of that name. */
    public @Nullable Node member(String name) {
      for (Entry entry : entries) {
        if (entry.name().equals(name)) {
          return entry.value();
        }
      }
      return null;
    }
  }

  /** One member of an object. */
  record Entry(String name, Node value) {}

  /** An array. */
  record Arr(List<Node> items) implements Node {}

  /** A string. */
  record Str(String text) implements Node {}

  /**
   * A number.
   *
   * @param value absent where the text is longer, or its exponent larger, than any number the trade
   *     writes: such a number is never expanded
   */
  record Num(String text, @Nullable BigDecimal value) implements Node {}

  /** True or false. */
  record Bool(boolean value) implements Node {}

  /** Null. */
  record Null() implements Node {}

  /** What it is, in words for a person. */
  default String kind() {
    if (this instanceof Obj) {
      return "an object";
    }
    if (this instanceof Arr) {
      return "a list";
    }
    if (this instanceof Str) {
      return "a text";
    }
    if (this instanceof Num) {
      return "a number";
    }
    return this instanceof Bool ? "true or false" : "null";
  }
}
