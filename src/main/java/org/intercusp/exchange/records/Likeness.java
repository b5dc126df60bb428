package org.intercusp.exchange.records;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.codec.digest.DigestUtils;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.wire.FhirText;
import org.intercusp.exchange.wire.Place;
import org.intercusp.finding.ShortText;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Whether two resources say the same. Left out is what a server may add or write its own way: id,
 * meta, narrative, absolute or versioned references, and the time zone in which an instant is
 * written.
 */
public final class Likeness {

  /**
   * One place where two resources differ; a side is absent where it has nothing there.
   *
   * @param precise whether it is only the precision that a number is written with: some servers
   *     lose it whatever they are sent, so it is no reason to send again
   */
  record Gap(String path, @Nullable String sent, @Nullable String stored, boolean precise) {}

  private static final Set<String> THE_SERVERS = Set.of("id", "meta", "text");

  /** As much of a value as a report shows; common practice, no source. */
  private static final int LONGEST_SHOWN = 120;

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private final FhirText text;
  private final String base;
  private final Map<String, String> same;

  /**
   * What was written of a resource once, by the resource itself: a delivery asks for most of them
   * several times, writing is most of what comparing costs, and nobody changes one in between.
   */
  private final Map<Resource, JsonNode> trees;

  Likeness(FhirText text, String base) {
    this(text, base, Map.of(), new IdentityHashMap<>());
  }

  /**
   * One for which several addresses are one.
   *
   * @param same for each {@code Type/id} the one that stands for it
   */
  public Likeness(FhirText text, String base, Map<String, String> same) {
    this(text, base, same, new IdentityHashMap<>());
  }

  private Likeness(
      FhirText text, String base, Map<String, String> same, Map<Resource, JsonNode> trees) {
    this.text = text;
    this.base = base;
    this.same = Map.copyOf(same);
    this.trees = trees;
  }

  /** The same, for which these addresses are one. */
  Likeness with(Map<String, String> others) {
    return new Likeness(text, base, others, trees);
  }

  /** Digest of what a resource says. */
  public String digest(Resource resource) {
    StringBuilder out = new StringBuilder();
    canonical(tree(resource), true, out);
    return digest(out.toString());
  }

  /** Digest of a text: SHA-256 in hexadecimal digits. */
  public static String digest(String content) {
    return DigestUtils.sha256Hex(content);
  }

  /**
   * Where a stored one differs from one that is sent with its references led to what is stored.
   *
   * @param known {@code Type/id} by urn
   */
  List<Gap> gaps(Resource sent, Map<String, String> known, Resource stored) {
    // Faster by far than to write a resource anew with other references in it.
    JsonNode led = tree(sent).deepCopy();
    lead(led, known);
    List<Gap> gaps = new ArrayList<>();
    compare(sent.fhirType(), led, tree(stored), true, gaps);
    return gaps;
  }

  private static void lead(JsonNode node, Map<String, String> known) {
    for (JsonNode one : node) {
      lead(one, known);
    }
    if (node instanceof ObjectNode object && object.path("reference").isString()) {
      String to = object.path("reference").stringValue();
      object.put("reference", known.getOrDefault(to, to));
    }
  }

  private JsonNode tree(Resource resource) {
    return trees.computeIfAbsent(resource, one -> JSON.readTree(text.text(one)));
  }

  private void compare(String path, JsonNode sent, JsonNode stored, boolean root, List<Gap> gaps) {
    if (sent.isObject() && stored.isObject()) {
      Set<String> names = new LinkedHashSet<>(sent.propertyNames());
      // A display or type that a server adds to a reference says nothing new.
      if (!sent.has("reference")) {
        names.addAll(stored.propertyNames());
      }
      for (String name : names) {
        if (!(root && THE_SERVERS.contains(name))) {
          compare(path + "." + name, sent.path(name), stored.path(name), false, gaps);
        }
      }
    } else if (sent.isArray() && stored.isArray()) {
      for (int i = 0; i < Math.max(sent.size(), stored.size()); i++) {
        compare(path + "[" + i + "]", sent.path(i), stored.path(i), false, gaps);
      }
    } else if (!Objects.equals(plain(sent), plain(stored))) {
      gaps.add(new Gap(path, shown(sent), shown(stored), false));
    } else if (sent.isNumber() && sent.decimalValue().scale() != stored.decimalValue().scale()) {
      gaps.add(new Gap(path, shown(sent), shown(stored), true));
    }
  }

  private void canonical(JsonNode node, boolean root, StringBuilder out) {
    if (node.isObject()) {
      out.append('{');
      for (String name : new TreeSet<>(node.propertyNames())) {
        if (!(root && THE_SERVERS.contains(name))) {
          out.append(name).append(':');
          canonical(node.path(name), false, out);
          out.append(';');
        }
      }
      out.append('}');
    } else if (node.isArray()) {
      out.append('[');
      for (JsonNode one : node) {
        canonical(one, false, out);
        out.append(';');
      }
      out.append(']');
    } else {
      String plain = String.valueOf(plain(node));
      out.append(plain.length()).append('"').append(plain);
    }
  }

  private @Nullable Object plain(JsonNode node) {
    if (node.isMissingNode() || node.isNull()) {
      return null;
    }
    if (node.isNumber()) {
      BigDecimal number = node.decimalValue();
      return number.signum() == 0 ? "0" : number.stripTrailingZeros().toString();
    }
    if (!node.isString()) {
      return node.toString();
    }
    String value = node.stringValue();
    String place = Place.resource(base, value).orElse(value);
    return instant(same.getOrDefault(place, place));
  }

  private static String instant(String value) {
    if (value.length() < 20 || value.charAt(4) != '-' || value.indexOf('T') != 10) {
      return value;
    }
    try {
      return OffsetDateTime.parse(value).toInstant().toString();
    } catch (DateTimeException e) {
      return value;
    }
  }

  private static @Nullable String shown(JsonNode node) {
    if (node.isMissingNode() || node.isNull()) {
      return null;
    }
    String value = node.isString() ? node.stringValue() : node.toString();
    return ShortText.shown(value, LONGEST_SHOWN);
  }
}
