package org.intercusp.conformance;

import java.io.StringReader;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import javax.xml.stream.Location;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/**
 * Restricts a narrative to what FHIR R4 allows in one (rules txt-1 and txt-2 of Narrative: chapters
 * 7 to 11 but section 4 of 9, and 15 of HTML 4.0, links, images, and styles that fetch nothing).
 * Tighter than FHIR in one thing: an address in it is http, https, mail, a fragment, or a picture
 * given as data, so that showing a narrative runs nothing.
 */
final class NarrativeGuard {

  private static final String XHTML = "http://www.w3.org/1999/xhtml";
  private static final String XML = "http://www.w3.org/XML/1998/namespace";

  private static final Set<String> ELEMENTS =
      Set.of(
          "a",
          "abbr",
          "acronym",
          "address",
          "b",
          "bdo",
          "big",
          "blockquote",
          "br",
          "caption",
          "cite",
          "code",
          "col",
          "colgroup",
          "dd",
          "del",
          "dfn",
          "div",
          "dl",
          "dt",
          "em",
          "h1",
          "h2",
          "h3",
          "h4",
          "h5",
          "h6",
          "hr",
          "i",
          "img",
          "ins",
          "kbd",
          "li",
          "ol",
          "p",
          "pre",
          "q",
          "samp",
          "small",
          "span",
          "strong",
          "sub",
          "sup",
          "table",
          "tbody",
          "td",
          "tfoot",
          "th",
          "thead",
          "tr",
          "tt",
          "ul",
          "var");

  private static final Set<String> EVERYWHERE =
      Set.of("class", "dir", "id", "lang", "style", "title");

  private static final Set<String> CELL =
      Set.of(
          "abbr", "align", "axis", "char", "charoff", "colspan", "headers", "rowspan", "scope",
          "valign");

  private static final Set<String> ROW = Set.of("align", "char", "charoff", "valign");
  private static final Set<String> COLUMN =
      Set.of("align", "char", "charoff", "span", "valign", "width");

  private static final Map<String, Set<String>> OWN =
      Map.ofEntries(
          Map.entry("a", Set.of("charset", "href", "hreflang", "name", "rel", "rev", "type")),
          Map.entry("blockquote", Set.of("cite")),
          Map.entry("col", COLUMN),
          Map.entry("colgroup", COLUMN),
          Map.entry("del", Set.of("cite", "datetime")),
          Map.entry("img", Set.of("alt", "height", "longdesc", "src", "width")),
          Map.entry("ins", Set.of("cite", "datetime")),
          Map.entry("q", Set.of("cite")),
          Map.entry(
              "table",
              Set.of("border", "cellpadding", "cellspacing", "frame", "rules", "summary", "width")),
          Map.entry("tbody", ROW),
          Map.entry("td", CELL),
          Map.entry("tfoot", ROW),
          Map.entry("th", CELL),
          Map.entry("thead", ROW),
          Map.entry("tr", ROW));

  private static final Set<String> ADDRESSES = Set.of("href", "src", "cite", "longdesc");

  private static final Pattern ADDRESS =
      Pattern.compile("(?i)#.*|https?://.*|mailto:.*|urn:.*|[a-z0-9_./][a-z0-9_./?=&%|#-]*");

  private static final Pattern PICTURE =
      Pattern.compile("(?i)data:image/(png|jpeg|gif);base64,[a-z0-9+/=\\s]*");
  private static final Pattern FETCHING_STYLE =
      Pattern.compile(
          "(?i)(url\\s*\\(|expression\\s*\\(|@import|behaviou?r\\s*:|-moz-binding|\\\\)",
          Pattern.DOTALL);

  private final GuardLimits limits;
  private final XmlReaders readers;

  NarrativeGuard(GuardLimits limits) {
    this.limits = limits;
    this.readers = new XmlReaders(limits);
  }

  /** Judges the narrative that stands as one text in a JSON document, at {@code spot}. */
  void check(String div, @Nullable String path, Spot spot) throws Refusal {
    try {
      XMLStreamReader reader = readers.open(new StringReader(div));
      try {
        reader.nextTag();
        Walk walk = new Walk(reader, path, spot);
        walk.root();
        while (reader.hasNext()) {
          walk.after(reader.next());
        }
      } finally {
        reader.close();
      }
    } catch (XMLStreamException e) {
      throw new Refusal(
          GuardRule.NARRATIVE,
          "The narrative is not well-formed XHTML: " + XmlReaders.reason(e),
          path,
          div,
          spot);
    }
  }

  /** Judges the narrative whose {@code div} the reader of an XML document has just opened. */
  void check(XMLStreamReader reader, @Nullable String path) throws XMLStreamException, Refusal {
    new Walk(reader, path, null).root();
  }

  /** One pass over one narrative; ends on the closing tag of its {@code div}. */
  private final class Walk {
    private final XMLStreamReader reader;
    private final @Nullable String path;
    private final @Nullable Spot fixed;

    Walk(XMLStreamReader reader, @Nullable String path, @Nullable Spot fixed) {
      this.reader = reader;
      this.path = path;
      this.fixed = fixed;
    }

    void root() throws XMLStreamException, Refusal {
      if (!reader.getLocalName().equals("div")) {
        throw refused("A narrative is one div.", reader.getLocalName());
      }
      element();
      int depth = 1;
      while (depth > 0) {
        int event = reader.next();
        if (event == XMLStreamConstants.START_ELEMENT) {
          depth++;
          if (depth > limits.narrativeDepth()) {
            throw refused(
                "A narrative is nested deeper than %d.".formatted(limits.narrativeDepth()), null);
          }
          element();
        } else if (event == XMLStreamConstants.END_ELEMENT) {
          depth--;
        } else {
          passive(event);
        }
      }
    }

    void after(int event) throws Refusal {
      boolean nothing =
          event == XMLStreamConstants.END_DOCUMENT
              || event == XMLStreamConstants.SPACE
              || event == XMLStreamConstants.COMMENT
              || (event == XMLStreamConstants.CHARACTERS && reader.isWhiteSpace());
      if (!nothing) {
        throw refused("Something follows the narrative's div.", null);
      }
    }

    private void passive(int event) throws Refusal {
      switch (event) {
        case XMLStreamConstants.CHARACTERS,
            XMLStreamConstants.SPACE,
            XMLStreamConstants.CDATA,
            XMLStreamConstants.COMMENT -> {
          // Text runs nothing.
        }
        case XMLStreamConstants.ENTITY_REFERENCE ->
            throw refused(
                "A narrative has a named entity; write the character.", reader.getLocalName());
        default -> throw refused("A narrative has a processing instruction.", null);
      }
    }

    private void element() throws Refusal {
      String name = reader.getLocalName();
      if (!XHTML.equals(reader.getNamespaceURI()) || !ELEMENTS.contains(name)) {
        throw refused("The element '%s' is not allowed in a narrative.".formatted(name), name);
      }
      for (int i = 0; i < reader.getAttributeCount(); i++) {
        attribute(name, i);
      }
    }

    private void attribute(String element, int index) throws Refusal {
      String name = reader.getAttributeLocalName(index);
      String space = reader.getAttributeNamespace(index);
      String value = reader.getAttributeValue(index);
      boolean plain = space == null || space.isEmpty();
      boolean known =
          plain
              ? EVERYWHERE.contains(name) || OWN.getOrDefault(element, Set.of()).contains(name)
              : space.equals(XML) && (name.equals("lang") || name.equals("space"));
      if (!known) {
        throw refused(
            "The attribute '%s' of '%s' is not allowed in a narrative.".formatted(name, element),
            name);
      }
      if (name.equals("style") && FETCHING_STYLE.matcher(value).find()) {
        throw refused("A style in a narrative may fetch nothing.", value);
      }
      if (ADDRESSES.contains(name) && !harmless(element, value.strip())) {
        throw refused("An address of this kind is not allowed in a narrative.", value);
      }
    }

    private boolean harmless(String element, String address) {
      return ADDRESS.matcher(address).matches()
          || (element.equals("img") && PICTURE.matcher(address.toLowerCase(Locale.ROOT)).matches());
    }

    private Refusal refused(String message, @Nullable String value) {
      Location at = reader.getLocation();
      Spot spot = fixed == null ? Spot.at(at.getLineNumber(), at.getColumnNumber()) : fixed;
      return new Refusal(GuardRule.NARRATIVE, message, path, value, spot);
    }
  }
}
