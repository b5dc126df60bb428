package org.intercusp.summary.drawing;

import java.io.StringWriter;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes one SVG drawing (W3C SVG 1.1) in millimetres, y down. Text is escaped by the XML writer,
 * so no text of a record becomes markup. Lines and words take the colour of the page around them.
 */
final class Svg {

  private static final String NAMESPACE = "http://www.w3.org/2000/svg";

  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter xml;

  private Svg() throws XMLStreamException {
    xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
  }

  /** A drawing's content; what it throws is a failure of the writer, never of the record. */
  interface Content {
    void draw(Svg svg) throws XMLStreamException;
  }

  /**
   * Draws.
   *
   * @param id unique on the page, for the references of title and description
   * @param width in mm
   * @param height in mm
   */
  static String drawing(
      String id, double width, double height, String title, String description, Content content) {
    try {
      Svg svg = new Svg();
      svg.open(id, width, height, title, description);
      content.draw(svg);
      svg.xml.writeEndElement();
      svg.xml.close();
      return svg.text.toString();
    } catch (XMLStreamException e) {
      throw new IllegalStateException("a drawing in memory cannot fail", e);
    }
  }

  private void open(String id, double width, double height, String title, String description)
      throws XMLStreamException {
    xml.writeStartElement("svg");
    xml.writeDefaultNamespace(NAMESPACE);
    attribute("viewBox", "0 0 " + number(width) + " " + number(height));
    attribute("width", number(width) + "mm");
    attribute("height", number(height) + "mm");
    attribute("role", "img");
    attribute("aria-labelledby", id + "-title " + id + "-description");
    attribute("font-family", "sans-serif");
    attribute("font-size", "3.2");
    attribute("fill", "none");
    attribute("stroke", "currentColor");
    attribute("stroke-width", "0.35");
    words("title", id + "-title", title);
    words("desc", id + "-description", description);
  }

  private void words(String element, String id, String words) throws XMLStreamException {
    xml.writeStartElement(element);
    attribute("id", id);
    xml.writeCharacters(words);
    xml.writeEndElement();
  }

  void path(String d, String fill, String stroke) throws XMLStreamException {
    xml.writeEmptyElement("path");
    attribute("d", d);
    attribute("fill", fill);
    attribute("stroke", stroke);
    attribute("stroke-linejoin", "round");
  }

  void line(Spot from, Spot to, String stroke, double width) throws XMLStreamException {
    line(from, to, stroke, width, "none");
  }

  void dashed(Spot from, Spot to, String stroke, double width) throws XMLStreamException {
    line(from, to, stroke, width, "1.4 1");
  }

  private void line(Spot from, Spot to, String stroke, double width, String dashes)
      throws XMLStreamException {
    xml.writeEmptyElement("line");
    attribute("x1", number(from.x()));
    attribute("y1", number(from.y()));
    attribute("x2", number(to.x()));
    attribute("y2", number(to.y()));
    attribute("stroke", stroke);
    attribute("stroke-width", number(width));
    attribute("stroke-dasharray", dashes);
  }

  void dot(Spot at, double radius, String fill) throws XMLStreamException {
    xml.writeEmptyElement("circle");
    attribute("cx", number(at.x()));
    attribute("cy", number(at.y()));
    attribute("r", number(radius));
    attribute("fill", fill);
  }

  void text(Spot at, String anchor, String words) throws XMLStreamException {
    xml.writeStartElement("text");
    attribute("x", number(at.x()));
    attribute("y", number(at.y()));
    attribute("text-anchor", anchor);
    attribute("fill", "currentColor");
    attribute("stroke", "none");
    xml.writeCharacters(words);
    xml.writeEndElement();
  }

  private void attribute(String name, String value) throws XMLStreamException {
    xml.writeAttribute(name, value);
  }

  /** Two decimals are a hundredth of a millimetre on paper. */
  static String number(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }
}
