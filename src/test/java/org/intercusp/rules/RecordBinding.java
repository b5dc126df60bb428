package org.intercusp.rules;

import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.intercusp.measure.Decimal;
import tools.jackson.databind.JsonNode;

/** Binds JSON to the records of a treatment by their component names; for tests of rules. */
final class RecordBinding {

  private RecordBinding() {}

  static Object bind(Type type, JsonNode node) {
    if (type instanceof ParameterizedType generic) {
      return generic.getRawType() == List.class ? list(generic, node) : map(generic, node);
    }
    if (node == null || node.isNull()) {
      return null;
    }
    Class<?> kind = (Class<?>) type;
    if (kind == boolean.class || kind == Boolean.class) {
      return node.booleanValue();
    }
    if (kind == int.class || kind == Integer.class) {
      return node.intValue();
    }
    if (kind == String.class) {
      return node.stringValue();
    }
    if (kind == LocalDate.class) {
      return LocalDate.parse(node.stringValue());
    }
    if (kind.isEnum()) {
      return constant(kind, node.stringValue());
    }
    if (!kind.isRecord()) {
      throw new IllegalArgumentException("no binding for " + kind);
    }
    return record(kind, node);
  }

  private static Object list(ParameterizedType type, JsonNode node) {
    if (node == null) {
      return new ArrayList<>();
    }
    List<Object> list = new ArrayList<>();
    node.forEach(item -> list.add(bind(type.getActualTypeArguments()[0], item)));
    return list;
  }

  private static Object map(ParameterizedType type, JsonNode node) {
    Map<Object, Object> map = new LinkedHashMap<>();
    if (node != null) {
      Type key = type.getActualTypeArguments()[0];
      node.properties()
          .forEach(
              entry ->
                  map.put(
                      key == String.class
                          ? entry.getKey()
                          : bind(
                              key, tools.jackson.databind.node.StringNode.valueOf(entry.getKey())),
                      bind(type.getActualTypeArguments()[1], entry.getValue())));
    }
    return map;
  }

  private static Object constant(Class<?> kind, String code) {
    for (Object constant : kind.getEnumConstants()) {
      try {
        var method = kind.getMethod("code");
        method.setAccessible(true);
        if (code.equals(method.invoke(constant))) {
          return constant;
        }
      } catch (ReflectiveOperationException e) {
        throw new IllegalStateException(e);
      }
    }
    throw new IllegalArgumentException(code + " is no " + kind);
  }

  private static Object record(Class<?> kind, JsonNode node) {
    RecordComponent[] parts = kind.getRecordComponents();
    Class<?>[] types = new Class<?>[parts.length];
    Object[] values = new Object[parts.length];
    for (int i = 0; i < parts.length; i++) {
      types[i] = parts[i].getType();
      values[i] = component(parts[i], parts.length, node);
    }
    try {
      Constructor<?> constructor = kind.getDeclaredConstructor(types);
      constructor.setAccessible(true);
      return constructor.newInstance(values);
    } catch (InvocationTargetException e) {
      throw new IllegalArgumentException(kind + ": " + node, e.getCause());
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Object component(RecordComponent part, int parts, JsonNode node) {
    if (parts == 1 && part.getType() == BigDecimal.class) {
      return node.decimalValue();
    }
    if (parts == 1 && node.isString()) {
      return node.stringValue();
    }
    if (node.isArray()) {
      return new Decimal(node.get(part.getName().equals("x") ? 0 : 1).decimalValue());
    }
    JsonNode value = node.get(part.getName());
    boolean optionalList =
        value == null
            && List.of("teethPresent", "allergies", "jointSigns").contains(part.getName());
    return optionalList ? null : bind(part.getGenericType(), value);
  }
}
