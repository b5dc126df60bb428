package org.intercusp.treatment.shape;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Source;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ObjectNode;

/**
 * An object whose member names are words themselves, such as teeth.
 *
 * @param <K> what a name becomes
 * @param <V> what a value becomes
 */
public record Keyed<K, V>(Words<K> name, Shape<V> value, int most) implements Shape<Map<K, V>> {

  @Override
  public @Nullable Map<K, V> read(Node node, Pointer at, Reading reading) {
    if (!(node instanceof Node.Obj object)) {
      reading.wrongType(at, node, "an object");
      return null;
    }
    Map<K, V> values = new LinkedHashMap<>();
    Set<String> seen = new HashSet<>();
    for (Node.Entry entry : object.entries()) {
      Pointer place = at.child(entry.name());
      if (!seen.add(entry.name())) {
        reading.add(Fault.Code.DUPLICATE_MEMBER, place, entry.value(), "each member once");
        continue;
      }
      K key = name.readName(entry.name(), place, reading);
      V read = value.read(entry.value(), place, reading);
      if (key != null && read != null) {
        values.put(key, read);
      }
    }
    if (seen.size() > most) {
      reading.outOfRange(
          at,
          new Node.Str(seen.size() + " members"),
          "at most " + most + " members",
          null,
          Source.COMMON_PRACTICE);
    }
    return values;
  }

  @Override
  public void write(Map<K, V> values, JsonGenerator out) {
    out.writeStartObject();
    values.forEach(
        (key, each) -> {
          out.writeName(name.asName(key));
          value.write(each, out);
        });
    out.writeEndObject();
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    ObjectNode schema = SchemaPage.object().put("type", "object");
    schema.set("propertyNames", name.schema(page));
    schema.set("additionalProperties", value.schema(page));
    return schema.put("maxProperties", most);
  }
}
