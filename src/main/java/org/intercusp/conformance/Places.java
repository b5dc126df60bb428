package org.intercusp.conformance;

import java.io.StringReader;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.json.JsonFactory;

/** Finds where elements stand in the text of an admitted document, by their FHIRPath. */
final class Places {

  /** The first of a list and the only one of its kind are the same here: XML does not tell them. */
  private static final Pattern FIRST = Pattern.compile("\\[0]");

  private static final Pattern TYPE = Pattern.compile("\\.ofType\\([A-Za-z]+\\)");

  private final XmlReaders readers;
  private final JsonFactory factory = new JsonFactory();

  Places(GuardLimits limits) {
    this.readers = new XmlReaders(limits);
  }

  /** The places of those expressions that are found, by expression. */
  Map<String, Spot> of(Set<String> expressions, String document, Format format) {
    Map<String, Spot> found = new HashMap<>();
    Set<String> wanted =
        expressions.stream().map(Places::key).collect(Collectors.toUnmodifiableSet());
    switch (format) {
      case JSON -> json(document, wanted, found);
      case XML -> xml(document, wanted, found);
    }
    return expressions.stream()
        .filter(expression -> found.containsKey(key(expression)))
        .collect(
            Collectors.toUnmodifiableMap(
                expression -> expression, expression -> found.get(key(expression))));
  }

  private static String key(String expression) {
    String path = FIRST.matcher(TYPE.matcher(expression).replaceAll("")).replaceAll("");
    int root = path.indexOf('.');
    return Character.isUpperCase(path.charAt(0)) ? path.substring(root < 0 ? 0 : root + 1) : path;
  }

  private void json(String document, Set<String> wanted, Map<String, Spot> found) {
    Deque<Frame> open = new ArrayDeque<>();
    try (JsonParser parser = factory.createParser(ObjectReadContext.empty(), document)) {
      for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
        switch (token) {
          case PROPERTY_NAME -> open.element().begin(parser.currentName());
          case END_OBJECT, END_ARRAY -> open.pop();
          default -> {
            value(token, open, parser, wanted, found);
          }
        }
      }
    }
  }

  private static void value(
      JsonToken token,
      Deque<Frame> open,
      JsonParser parser,
      Set<String> wanted,
      Map<String, Spot> found) {
    Frame outer = open.peek();
    if (outer != null && outer.list()) {
      outer.countItem();
    }
    StringBuilder path = new StringBuilder();
    open.descendingIterator().forEachRemaining(frame -> frame.append(path));
    String key = FIRST.matcher(path).replaceAll("");
    if (wanted.contains(key)) {
      TokenStreamLocation at = parser.currentTokenLocation();
      found.putIfAbsent(key, Spot.at(at.getLineNr(), at.getColumnNr()));
    }
    if (token == JsonToken.START_OBJECT || token == JsonToken.START_ARRAY) {
      open.push(new Frame(token == JsonToken.START_ARRAY, outer == null ? "" : outer.member()));
    }
  }

  private void xml(String document, Set<String> wanted, Map<String, Spot> found) {
    Deque<Map<String, Integer>> counts = new ArrayDeque<>();
    Deque<String> paths = new ArrayDeque<>();
    try {
      XMLStreamReader reader = readers.open(new StringReader(document));
      while (reader.hasNext()) {
        int event = reader.next();
        if (event == XMLStreamConstants.START_ELEMENT) {
          String path = path(reader.getLocalName(), counts.peek(), paths.peek());
          if (wanted.contains(path)) {
            found.putIfAbsent(
                path,
                Spot.at(
                    reader.getLocation().getLineNumber(), reader.getLocation().getColumnNumber()));
          }
          counts.push(new HashMap<>());
          paths.push(path);
        } else if (event == XMLStreamConstants.END_ELEMENT) {
          counts.pop();
          paths.pop();
        }
      }
      reader.close();
    } catch (XMLStreamException e) {
      throw new IllegalStateException("the guard admitted what is not XML", e);
    }
  }

  private static String path(String name, Map<String, Integer> siblings, String outer) {
    // A resource's own element adds nothing to a path.
    if (siblings == null || Character.isUpperCase(name.charAt(0))) {
      return outer == null ? "" : outer;
    }
    String stem = Choices.stem(name);
    int index = siblings.merge(stem, 1, Integer::sum) - 1;
    String step = index == 0 ? stem : stem + "[" + index + "]";
    return outer == null || outer.isEmpty() ? step : outer + "." + step;
  }
}
