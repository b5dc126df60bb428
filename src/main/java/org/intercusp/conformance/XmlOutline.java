package org.intercusp.conformance;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.intercusp.conformance.Outline.Parameter;
import org.jspecify.annotations.Nullable;

/** The {@link Outline} of an admitted XML document, in one pass. */
final class XmlOutline {

  private static final XmlReaders READERS = new XmlReaders(GuardLimits.DEFAULT);

  private final String text;
  private final List<Parameter> parameters = new ArrayList<>();

  /** Namespaces declared around what is being read, by prefix; the empty one is the default. */
  private final Map<String, String> spaces = new LinkedHashMap<>();

  XmlOutline(String text) {
    this.text = text;
  }

  Outline read() {
    try {
      XMLStreamReader reader = READERS.open(new StringReader(text));
      reader.nextTag();
      String type = reader.getLocalName();
      if (type.equals(Outline.PARAMETERS)) {
        declare(reader);
        while (next(reader)) {
          if (reader.getLocalName().equals("parameter")) {
            parameter(reader, "Parameters.parameter[" + parameters.size() + "]");
          } else {
            skip(reader);
          }
        }
      }
      reader.close();
      return new Outline(type, parameters);
    } catch (XMLStreamException e) {
      throw new IllegalStateException("the guard admitted what is not XML", e);
    }
  }

  private void parameter(XMLStreamReader reader, String path) throws XMLStreamException {
    String name = "";
    String value = null;
    Excerpt resource = null;
    Spot spot = spot(reader);
    Map<String, String> around = new LinkedHashMap<>(spaces);
    declare(reader);
    while (next(reader)) {
      String element = reader.getLocalName();
      String given = reader.getAttributeValue(null, "value");
      if (element.equals("resource")) {
        declare(reader);
        resource = resource(reader, path + ".resource");
        continue;
      }
      if (element.equals("name") && given != null) {
        name = given;
      } else if (element.startsWith("value") && given != null) {
        value = given;
        spot = spot(reader);
      }
      skip(reader);
    }
    spaces.clear();
    spaces.putAll(around);
    String expression = value == null ? path : path + ".value";
    parameters.add(
        new Parameter(name, expression, value, spot.line(), spot.column(), resource));
  }

  /** The one element in {@code resource}; what else is there is left aside. */
  private @Nullable Excerpt resource(XMLStreamReader reader, String path)
      throws XMLStreamException {
    Excerpt resource = null;
    boolean child = next(reader);
    while (child) {
      int start = reader.getLocation().getCharacterOffset();
      String type = reader.getLocalName();
      String prefix = reader.getPrefix();
      int name = type.length() + (prefix == null || prefix.isEmpty() ? 0 : prefix.length() + 1);
      String missing = missing(reader);
      skip(reader);
      reader.next();
      int end = reader.getLocation().getCharacterOffset();
      if (resource == null) {
        resource =
            Excerpt.of(text, start, end, Format.XML, type, path)
                .with(missing, start + 1 + name);
      }
      child = reader.isStartElement() || (!reader.isEndElement() && next(reader));
    }
    return resource;
  }

  /** Declarations that stand around an element and not at it. */
  private String missing(XMLStreamReader reader) {
    Map<String, String> around = new LinkedHashMap<>(spaces);
    for (int i = 0; i < reader.getNamespaceCount(); i++) {
      around.remove(prefix(reader, i));
    }
    StringBuilder declarations = new StringBuilder();
    around.forEach(
        (prefix, uri) ->
            declarations
                .append(prefix.isEmpty() ? " xmlns" : " xmlns:" + prefix)
                .append("=\"")
                .append(uri.replace("&", "&amp;").replace("\"", "&quot;").replace("<", "&lt;"))
                .append('"'));
    return declarations.toString();
  }

  private void declare(XMLStreamReader reader) {
    for (int i = 0; i < reader.getNamespaceCount(); i++) {
      String uri = reader.getNamespaceURI(i);
      spaces.put(prefix(reader, i), uri == null ? "" : uri);
    }
  }

  private static String prefix(XMLStreamReader reader, int declaration) {
    String prefix = reader.getNamespacePrefix(declaration);
    return prefix == null ? "" : prefix;
  }

  /** Goes to the next child; false at the end of the element it is in. */
  private static boolean next(XMLStreamReader reader) throws XMLStreamException {
    while (reader.hasNext()) {
      reader.next();
      if (reader.isStartElement() || reader.isEndElement()) {
        return reader.isStartElement();
      }
    }
    return false;
  }

  /** Goes to the end of the element that has just begun. */
  private static void skip(XMLStreamReader reader) throws XMLStreamException {
    for (int open = 1; open > 0; ) {
      reader.next();
      open += reader.isStartElement() ? 1 : reader.isEndElement() ? -1 : 0;
    }
  }

  private static Spot spot(XMLStreamReader reader) {
    return Spot.at(
        reader.getLocation().getLineNumber(), reader.getLocation().getColumnNumber());
  }
}
