package org.intercusp.conformance;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.PrimitiveType;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/**
 * Turns the validator's locations into FHIRPath that resolves. Only the plain paths that a
 * validator writes are followed: names, indexes, and {@code ofType}.
 */
final class Expressions {

  private static final Pattern NOTE = Pattern.compile("/\\*[^*]*\\*/");
  private static final Pattern STEP =
      Pattern.compile("([A-Za-z][A-Za-z0-9]*)(?:\\[x\\])?(?:\\[(\\d+)\\])?");

  private Expressions() {}

  /**
   * The longest beginning of a location that resolves to something in the document; the root type
   * alone when nothing else does.
   */
  static String resolving(Resource root, String location) {
    String[] steps = plain(location).split("\\.", -1);
    StringBuilder path = new StringBuilder(root.fhirType());
    List<Base> at = List.of(root);
    for (int i = 1; i < steps.length; i++) {
      at = step(at, steps[i]);
      if (at.isEmpty()) {
        break;
      }
      path.append('.').append(steps[i]);
    }
    return path.toString();
  }

  /** The value as written where a path of ours resolves to one primitive; else nothing. */
  static @Nullable String value(Resource root, String path) {
    List<Base> at = List.of(root);
    String[] steps = path.split("\\.", -1);
    for (int i = 1; i < steps.length; i++) {
      at = step(at, steps[i]);
    }
    return at.size() == 1 && at.get(0) instanceof PrimitiveType<?> primitive
        ? primitive.getValueAsString()
        : null;
  }

  /** A location without the validator's notes; a choice is named as FHIRPath names it. */
  static String plain(String location) {
    String bare = NOTE.matcher(location).replaceAll("");
    List<String> steps = new ArrayList<>();
    for (String step : bare.split("\\.(?![^(]*\\))", -1)) {
      Matcher named = STEP.matcher(step);
      if (named.matches()) {
        String index = named.group(2) == null ? "" : "[" + named.group(2) + "]";
        steps.add(Choices.stem(named.group(1)) + index);
      } else {
        steps.add(step);
      }
    }
    return String.join(".", steps);
  }

  private static List<Base> step(List<Base> from, String step) {
    if (step.startsWith("ofType(") && step.endsWith(")")) {
      String type = step.substring("ofType(".length(), step.length() - 1);
      return from.stream().filter(base -> base.fhirType().equals(type)).toList();
    }
    Matcher named = STEP.matcher(step);
    if (!named.matches()) {
      return List.of();
    }
    List<Base> found = new ArrayList<>();
    for (Base base : from) {
      Property property = base.getChildByName(named.group(1));
      if (property == null) {
        property = base.getChildByName(named.group(1) + "[x]");
      }
      if (property != null) {
        found.addAll(property.getValues());
      }
    }
    if (named.group(2) == null) {
      return found;
    }
    int index = named.group(2).length() > 6 ? Integer.MAX_VALUE : Integer.parseInt(named.group(2));
    return index < found.size() ? List.of(found.get(index)) : List.of();
  }
}
