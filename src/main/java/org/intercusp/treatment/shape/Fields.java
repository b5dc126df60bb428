package org.intercusp.treatment.shape;

import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.intercusp.finding.Pointer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * An object that becomes a record: its members are named and ordered as the components of the
 * record. No other member is allowed, and none twice.
 *
 * @param <R> the record
 */
public final class Fields<R extends Record> implements Shape<R> {

  private final Class<R> type;
  private final List<Field> fields;
  private final Set<String> known;
  private final List<Together> together;
  private final boolean defined;
  private final Constructor<R> constructor;
  private final List<Method> accessors;

  private Fields(Builder<R> builder) {
    this.type = builder.type;
    this.fields = List.copyOf(builder.fields);
    this.known = Set.copyOf(fields.stream().map(Field::name).toList());
    this.together = List.copyOf(builder.together);
    this.defined = builder.defined;
    List<RecordComponent> components = List.of(type.getRecordComponents());
    List<String> bound = fields.stream().filter(Field::bound).map(Field::name).toList();
    if (!bound.equals(components.stream().map(RecordComponent::getName).toList())) {
      throw new IllegalStateException(type + " is described as " + bound);
    }
    this.constructor = canonical(type);
    this.accessors = components.stream().map(RecordComponent::getAccessor).toList();
    // Public anyway; said once, it is not asked again at each of a million records.
    constructor.setAccessible(true);
    accessors.forEach(one -> one.setAccessible(true));
  }

  private static <R extends Record> Constructor<R> canonical(Class<R> type) {
    Class<?>[] parameters =
        Arrays.stream(type.getRecordComponents())
            .map(RecordComponent::getType)
            .toArray(Class<?>[]::new);
    try {
      return type.getConstructor(parameters);
    } catch (NoSuchMethodException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Starts the description of an object that becomes this record. */
  public static <R extends Record> Builder<R> of(Class<R> type) {
    return new Builder<>(type);
  }

  /** How a member may be absent. */
  private enum Presence {
    REQUIRED,
    OPTIONAL,
    EMPTY_IF_ABSENT
  }

  private record Field(String name, Shape<?> shape, Presence presence, @Nullable String constant) {
    boolean bound() {
      return constant == null;
    }
  }

  /** Gathers the members of an object, in the order of the record. */
  public static final class Builder<R extends Record> {

    private final Class<R> type;
    private final List<Field> fields = new ArrayList<>();
    private final List<Together> together = new ArrayList<>();
    private boolean defined;

    private Builder(Class<R> type) {
      this.type = type;
    }

    private Builder<R> add(String name, Shape<?> shape, Presence presence) {
      fields.add(new Field(name, shape, presence, null));
      return this;
    }

    /** A member that is always there. */
    public Builder<R> required(String name, Shape<?> shape) {
      return add(name, shape, Presence.REQUIRED);
    }

    /** A member that may be absent, which is null in the record. */
    public Builder<R> optional(String name, Shape<?> shape) {
      return add(name, shape, Presence.OPTIONAL);
    }

    /** A list that may be absent, which says no more than an empty one. */
    public Builder<R> optionalList(String name, Items<?> shape) {
      return add(name, shape, Presence.EMPTY_IF_ABSENT);
    }

    /** A member that always has the same text and is no component of the record. */
    public Builder<R> constant(String name, String text) {
      fields.add(new Field(name, Words.exactly(text), Presence.REQUIRED, text));
      return this;
    }

    /** At least one of these optional members is there. */
    public Builder<R> atLeastOne(String... names) {
      together.add(new Together.AtLeastOne(List.of(names)));
      return this;
    }

    /** Where one member has this text, another must be there. */
    public Builder<R> requiredWhere(String member, String text, String required) {
      together.add(new Together.RequiredWhere(member, text, required));
      return this;
    }

    /** One number lies between two others; JSON Schema cannot say this. */
    public Builder<R> within(String member, String least, String most) {
      together.add(new Together.Within(member, least, most));
      return this;
    }

    /** Stands under its own name in the schema. */
    public Builder<R> defined() {
      defined = true;
      return this;
    }

    public Fields<R> build() {
      return new Fields<>(this);
    }
  }

  @Override
  public @Nullable R read(Node node, Pointer at, Reading reading) {
    if (!(node instanceof Node.Obj object)) {
      reading.wrongType(at, node, "an object");
      return null;
    }
    int before = reading.count();
    Map<String, Node> members = members(object, at, reading);
    List<@Nullable Object> values = new ArrayList<>();
    for (Field field : fields) {
      Object value = value(field, members.get(field.name()), at, reading);
      if (field.bound()) {
        values.add(value);
      }
    }
    together.forEach(rule -> rule.check(members, at, reading));
    return reading.count() == before ? create(values) : null;
  }

  private Map<String, Node> members(Node.Obj object, Pointer at, Reading reading) {
    Map<String, Node> members = new HashMap<>();
    for (Node.Entry entry : object.entries()) {
      if (members.putIfAbsent(entry.name(), entry.value()) != null) {
        Pointer place = at.child(entry.name());
        reading.add(Fault.Code.DUPLICATE_MEMBER, place, entry.value(), "each member once");
      } else if (!known.contains(entry.name())) {
        String names = String.join(", ", fields.stream().map(Field::name).toList());
        Pointer place = at.child(entry.name());
        reading.add(Fault.Code.UNKNOWN_MEMBER, place, entry.value(), "no members but " + names);
      }
    }
    return members;
  }

  private static @Nullable Object value(
      Field field, @Nullable Node node, Pointer at, Reading reading) {
    if (node != null) {
      return field.shape().read(node, at.child(field.name()), reading);
    }
    if (field.presence() == Presence.REQUIRED) {
      reading.add(
          Fault.Code.MISSING_MEMBER, at.child(field.name()), null, "a member " + field.name());
    }
    return field.presence() == Presence.EMPTY_IF_ABSENT ? List.of() : null;
  }

  private R create(List<@Nullable Object> values) {
    try {
      return constructor.newInstance(values.toArray());
    } catch (InvocationTargetException e) {
      throw new IllegalStateException(type + " refuses what its description allows", e.getCause());
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void write(R record, JsonGenerator out) {
    out.writeStartObject();
    int component = 0;
    for (Field field : fields) {
      Object value = field.bound() ? component(record, component++) : field.constant();
      boolean silent =
          field.presence() == Presence.EMPTY_IF_ABSENT
              && value instanceof List<?> list
              && list.isEmpty();
      if (value != null && !silent) {
        out.writeName(field.name());
        writeUnchecked(field.shape(), value, out);
      }
    }
    out.writeEndObject();
  }

  private @Nullable Object component(R record, int index) {
    try {
      return accessors.get(index).invoke(record);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  // The round trip test of the whole file shows that shapes and components agree.
  @SuppressWarnings("unchecked")
  private static <T> void writeUnchecked(Shape<T> shape, Object value, JsonGenerator out) {
    shape.write((T) value, out);
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    if (!defined) {
      return body(page);
    }
    String name = type.getSimpleName();
    String key = Character.toLowerCase(name.charAt(0)) + name.substring(1);
    return page.reference(key, () -> body(page));
  }

  private ObjectNode body(SchemaPage page) {
    ObjectNode schema = SchemaPage.object().put("type", "object");
    ObjectNode properties = schema.putObject("properties");
    fields.forEach(field -> properties.set(field.name(), field.shape().schema(page)));
    ArrayNode required = schema.putArray("required");
    fields.stream()
        .filter(field -> field.presence() == Presence.REQUIRED)
        .forEach(field -> required.add(field.name()));
    if (required.isEmpty()) {
      schema.remove("required");
    }
    schema.put("additionalProperties", false);
    together.forEach(rule -> rule.describe(schema));
    return schema;
  }
}
