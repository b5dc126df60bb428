package org.intercusp.exchange.wire;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Resource;

/**
 * What a resource is found by: a business identifier, or a tag where its type has no search by
 * identifier.
 *
 * @param parameter {@code identifier} or {@code _tag}
 */
public record Token(String parameter, String system, String value) implements Comparable<Token> {

  /** The parameter for a business identifier. */
  public static final String IDENTIFIER = "identifier";

  /** The parameter for a tag. */
  public static final String TAG = "_tag";

  /** Reads {@code identifier=system|value}, percent-encoded, as stands in a Bundle's requests. */
  public static Optional<Token> of(String search) {
    String[] sides = search.split("=", 2);
    if (sides.length < 2 || !(sides[0].equals(IDENTIFIER) || sides[0].equals(TAG))) {
      return Optional.empty();
    }
    String token = java.net.URLDecoder.decode(sides[1], StandardCharsets.UTF_8);
    int bar = token.indexOf('|');
    return bar < 0 || token.contains("&")
        ? Optional.empty()
        : Optional.of(new Token(sides[0], token.substring(0, bar), token.substring(bar + 1)));
  }

  /**
   * Whether a stored resource really has it: servers compare without case, or ignore parameters.
   */
  public boolean isOn(Resource resource) {
    if (parameter.equals(TAG)) {
      for (Coding tag : resource.getMeta().getTag()) {
        if (system.equals(tag.getSystem()) && value.equals(tag.getCode())) {
          return true;
        }
      }
      return false;
    }
    for (Identifier identifier : identifiers(resource)) {
      if (system.equals(identifier.getSystem()) && value.equals(identifier.getValue())) {
        return true;
      }
    }
    return false;
  }

  /** The business identifiers of a resource; none where its type has none. */
  public static List<Identifier> identifiers(Resource resource) {
    List<Identifier> identifiers = new ArrayList<>();
    // By name among all children would build all of them first, thousands of times a delivery.
    Property property = resource.getNamedProperty(IDENTIFIER);
    if (property != null) {
      for (Base base : property.getValues()) {
        if (base instanceof Identifier identifier) {
          identifiers.add(identifier);
        }
      }
    }
    return identifiers;
  }

  /** The search for it alone, percent-encoded. */
  public String search() {
    return parameter + "=" + encoded();
  }

  /** The value of the search, percent-encoded, with what a search gives a meaning escaped. */
  public String encoded() {
    return URLEncoder.encode(escaped(system) + "|" + escaped(value), StandardCharsets.UTF_8)
        .replace("+", "%20");
  }

  private static String escaped(String text) {
    return text.replace("\\", "\\\\").replace(",", "\\,").replace("$", "\\$").replace("|", "\\|");
  }

  @Override
  public int compareTo(Token other) {
    int bySystem = system.compareTo(other.system);
    return bySystem != 0 ? bySystem : value.compareTo(other.value);
  }
}
