package org.intercusp.conformance;

import java.io.StringReader;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import javax.xml.stream.Location;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/** Walks an XML document event by event, in one pass and without a tree. */
final class XmlGuard {

  private static final String FHIR = "http://hl7.org/fhir";
  private static final String XHTML = "http://www.w3.org/1999/xhtml";

  private final GuardLimits limits;
  private final NarrativeGuard narrative;
  private final XmlReaders readers;

  XmlGuard(GuardLimits limits, NarrativeGuard narrative) {
    this.limits = limits;
    this.narrative = narrative;
    this.readers = new XmlReaders(limits);
  }

  void check(String text) throws Refusal {
    int forbidden = Lexicon.firstForbidden(text);
    if (forbidden >= 0) {
      throw new Refusal(
          GuardRule.CHARACTER,
          "The document has the character U+%04X, which no text may have."
              .formatted((int) text.charAt(forbidden)),
          null,
          null,
          Spot.of(text, forbidden));
    }
    try {
      XMLStreamReader reader = readers.open(new StringReader(text));
      try {
        new Walk(reader).document();
      } finally {
        reader.close();
      }
    } catch (XMLStreamException e) {
      Location at = e.getLocation();
      Spot spot = at == null ? Spot.START : Spot.at(at.getLineNumber(), at.getColumnNumber());
      boolean entity = XmlReaders.reason(e).contains("general entity");
      throw new Refusal(
          entity ? GuardRule.ENTITY : GuardRule.SYNTAX,
          "This is not XML: " + XmlReaders.reason(e),
          null,
          null,
          spot);
    }
  }

  /** An open element: how often each child name came so far. Most have no child, so no table. */
  private static final class Element {
    private final String name;
    private final int index;
    private @Nullable Map<String, Integer> children;

    Element(String name, int index) {
      this.name = name;
      this.index = index;
    }

    String name() {
      return name;
    }

    int index() {
      return index;
    }

    int kinds() {
      return children == null ? 0 : children.size();
    }

    int count(String child) {
      if (children == null) {
        children = new HashMap<>(4);
      }
      return children.merge(child, 1, Integer::sum);
    }
  }

  /** The state of one pass. */
  private final class Walk {
    private final XMLStreamReader reader;
    private final Deque<Element> open = new ArrayDeque<>();
    private final References references = new References();
    private final Bounds bounds = new Bounds(limits, this::refused);
    private int entry = -1;
    private int tokens;
    private int resources;

    Walk(XMLStreamReader reader) {
      this.reader = reader;
    }

    void document() throws XMLStreamException, Refusal {
      String encoding = reader.getCharacterEncodingScheme();
      if (encoding != null && !encoding.equalsIgnoreCase("UTF-8")) {
        throw refused(GuardRule.ENCODING, "FHIR in XML is UTF-8.", encoding);
      }
      while (reader.hasNext()) {
        event(reader.next());
      }
      if (references.chainBeyond(limits.chain())) {
        throw new Refusal(
            GuardRule.CHAIN,
            "More than %d entries refer to one another in a row.".formatted(limits.chain()),
            null,
            null,
            Spot.START);
      }
    }

    private void event(int event) throws XMLStreamException, Refusal {
      switch (event) {
        case XMLStreamConstants.START_ELEMENT -> begin();
        case XMLStreamConstants.END_ELEMENT -> open.pop();
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
          if (!reader.isWhiteSpace()) {
            throw refused(GuardRule.SYNTAX, "Text stands outside a value.", reader.getText());
          }
        }
        case XMLStreamConstants.DTD ->
            throw refused(GuardRule.DOCTYPE, "A document type is not taken.", null);
        case XMLStreamConstants.PROCESSING_INSTRUCTION ->
            throw refused(
                GuardRule.INSTRUCTION,
                "Processing instructions are not taken.",
                reader.getPITarget());
        default -> {
          // Comments and the end.
        }
      }
    }

    private void begin() throws XMLStreamException, Refusal {
      String name = reader.getLocalName();
      bound(name);
      if (XHTML.equals(reader.getNamespaceURI())) {
        narrative.check(reader, path(name));
        return;
      }
      if (!FHIR.equals(reader.getNamespaceURI())) {
        throw refused(GuardRule.NAMESPACE, "The element is not FHIR's.", name);
      }
      Element outer = open.peek();
      int index = outer == null ? 0 : outer.count(name) - 1;
      bounds.repeated(name, index + 1, this::inMeta);
      if (name.equals("entry") && open.size() == 1) {
        entry = index;
      }
      if (outer != null && outer.kinds() > limits.members()) {
        throw refused(
            GuardRule.MEMBERS,
            "An element has more than %d kinds of children.".formatted(limits.members()),
            null);
      }
      open.push(new Element(name, index));
      if (Character.isUpperCase(name.charAt(0))) {
        bounds.resources(++resources);
      }
      for (int i = 0; i < reader.getAttributeCount(); i++) {
        attribute(reader.getAttributeLocalName(i), reader.getAttributeValue(i));
      }
    }

    private void bound(String name) throws Refusal {
      tokens += 2 + reader.getAttributeCount();
      if (tokens > limits.tokens()) {
        throw refused(
            GuardRule.TOKENS,
            "The document has more than %d elements and attributes.".formatted(limits.tokens()),
            null);
      }
      if (open.size() >= limits.depth()) {
        throw refused(
            GuardRule.DEPTH, "Elements are nested deeper than %d.".formatted(limits.depth()), null);
      }
      if (name.length() > limits.nameLength()) {
        throw refused(
            GuardRule.NAME_LENGTH,
            "An element's name is longer than %d characters.".formatted(limits.nameLength()),
            name);
      }
    }

    private boolean inMeta() {
      Element outer = open.peek();
      return outer != null && outer.name().equals("meta");
    }

    private void attribute(String name, String value) throws Refusal {
      bounds.text(value);
      String element = open.element().name();
      if (entry >= 0 && element.equals("reference") && name.equals("value")) {
        references.refers(entry, value);
      }
      if (open.size() == 3 && element.equals("fullUrl") && name.equals("value")) {
        references.named(entry, value);
      }
      // The outer name is asked for last: a document may have a hundred thousand values.
      if (name.equals("value")
          && Lexicon.number(value)
          && Lexicon.builtAsDecimal(element, outerName())) {
        bounds.number(value);
      }
    }

    private String outerName() {
      return open.stream().skip(1).findFirst().map(Element::name).orElse("");
    }

    private Refusal refused(GuardRule rule, String message, @Nullable String value) {
      Location at = reader.getLocation();
      return new Refusal(
          rule, message, path(null), value, Spot.at(at.getLineNumber(), at.getColumnNumber()));
    }

    /** The FHIRPath of the innermost open element, or of {@code child} in it. */
    private @Nullable String path(@Nullable String child) {
      StringBuilder path = new StringBuilder();
      open.descendingIterator()
          .forEachRemaining(
              element -> {
                boolean resource = Character.isUpperCase(element.name().charAt(0));
                if (!resource || path.length() == 0) {
                  path.append(path.length() == 0 ? "" : ".").append(Choices.stem(element.name()));
                  path.append(path.indexOf(".") < 0 ? "" : "[" + element.index() + "]");
                }
              });
      if (child != null) {
        path.append('.').append(child);
      }
      return path.length() == 0 ? null : path.toString();
    }
  }
}
