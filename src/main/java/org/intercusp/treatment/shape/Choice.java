package org.intercusp.treatment.shape;

import java.util.function.Function;
import org.intercusp.finding.Pointer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A number, or one word, or null.
 *
 * @param word the one word, which becomes {@code forWord}
 * @param forNull what null becomes
 * @param asNumber the number of a value, null for the two others
 * @param <N> what the number becomes
 * @param <T> what all three become
 */
public record Choice<N, T>(
    Shape<N> number,
    Function<N, ? extends T> join,
    Function<T, @Nullable N> asNumber,
    String word,
    T forWord,
    T forNull)
    implements Shape<T> {

  @Override
  public @Nullable T read(Node node, Pointer at, Reading reading) {
    if (node instanceof Node.Null) {
      return forNull;
    }
    if (node instanceof Node.Num) {
      N read = number.read(node, at, reading);
      return read == null ? null : join.apply(read);
    }
    String expected = "a number, \"" + word + "\" or null";
    if (!(node instanceof Node.Str text)) {
      reading.wrongType(at, node, expected);
    } else if (text.text().equals(word)) {
      return forWord;
    } else {
      reading.add(Fault.Code.OUT_OF_RANGE, at, node, expected);
    }
    return null;
  }

  @Override
  public void write(T value, JsonGenerator out) {
    N asNumber = this.asNumber.apply(value);
    if (asNumber != null) {
      number.write(asNumber, out);
    } else if (value.equals(forWord)) {
      out.writeString(word);
    } else {
      out.writeNull();
    }
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    ObjectNode schema = SchemaPage.object();
    ArrayNode either = schema.putArray("oneOf");
    either.add(number.schema(page));
    either.addObject().put("const", word);
    either.addObject().put("type", "null");
    return schema;
  }
}
