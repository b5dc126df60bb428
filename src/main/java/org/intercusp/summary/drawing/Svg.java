package org.intercusp.summary.drawing;

import java.io.StringWriter;
import java.util.List;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.intercusp.summary.wording.Plain;

/**
 * Writes one SVG drawing (W3C SVG 1.1) in millimetres, y down. Text is escaped by the XML writer,
 * so no text of a record becomes markup. Lines and words take the colour of the page around them.
 * The paper grows with what is drawn: nothing lies outside the view box, whatever the record says.
 */
final class Svg {

  private static final String NAMESPACE = "http://www.w3.org/2000/svg";
  private static final double MARGIN = 1;

  /** Wider than this a drawing is made smaller to fit an A4 page. */
  private static final double PAPER = 180;

  /** Size of plain words on a drawing, in mm. */
  static final double WORDS = 3.2;

  /** Size of small words, in mm: about 7 point. */
  static final double SMALL = 2.6;

  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter xml;
  private final Extent extent;

  private Svg(Extent extent) throws XMLStreamException {
    this.extent = extent;
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
   * @param width in mm, at least
   * @param height in mm, at least
   */
  static String drawing(
      String id, double width, double height, String title, String description, Content content) {
    Extent extent = new Extent(width, height);
    try {
      Svg body = new Svg(extent);
      body.xml.writeStartElement("g");
      content.draw(body);
      body.xml.writeEndElement();
      body.xml.close();
      return enclosed(body, plain(id), title, description);
    } catch (XMLStreamException e) {
      throw new IllegalStateException("a drawing in memory cannot fail", e);
    }
  }

  private static String enclosed(Svg body, String id, String title, String description)
      throws XMLStreamException {
    Svg root = new Svg(body.extent);
    root.open(id);
    root.words("title", id + "-title", title);
    root.words("desc", id + "-description", description);
    root.xml.flush();
    root.text.write(body.text.toString());
    root.xml.writeEndElement();
    root.xml.close();
    return root.text.toString();
  }

  private void open(String id) throws XMLStreamException {
    double shrink = Math.min(1, PAPER / extent.width());
    xml.writeStartElement("svg");
    xml.writeDefaultNamespace(NAMESPACE);
    attribute("viewBox", extent.shown());
    attribute("width", number(extent.width() * shrink) + "mm");
    attribute("height", number(extent.height() * shrink) + "mm");
    attribute("role", "img");
    attribute("aria-labelledby", id + "-title " + id + "-description");
    attribute("font-family", "DejaVu Sans Condensed, sans-serif");
    attribute("font-size", number(WORDS));
    attribute("fill", "none");
    attribute("stroke", "currentColor");
    attribute("stroke-width", "0.35");
  }

  /** An id of the record as part of an XML id. */
  private static String plain(String id) {
    return id.replaceAll("[^A-Za-z0-9-]", "-");
  }

  private void words(String element, String id, String words) throws XMLStreamException {
    xml.writeStartElement(element);
    attribute("id", id);
    xml.writeCharacters(Plain.text(words));
    xml.writeEndElement();
  }

  void path(Outline outline, String fill, String stroke) throws XMLStreamException {
    path(outline, fill, stroke, 0.35);
  }

  void path(Outline outline, String fill, String stroke, double width) throws XMLStreamException {
    outline.spots().forEach(spot -> extent.hold(spot, MARGIN));
    xml.writeEmptyElement("path");
    attribute("d", outline.data());
    attribute("fill", fill);
    attribute("stroke", stroke);
    attribute("stroke-width", number(width));
    attribute("stroke-linejoin", "round");
    attribute("stroke-linecap", "round");
  }

  void line(Spot from, Spot to, String stroke, double width) throws XMLStreamException {
    line(from, to, stroke, width, "none");
  }

  void dashed(Spot from, Spot to, String stroke, double width) throws XMLStreamException {
    line(from, to, stroke, width, "1.4 1");
  }

  private void line(Spot from, Spot to, String stroke, double width, String dashes)
      throws XMLStreamException {
    extent.hold(from, MARGIN);
    extent.hold(to, MARGIN);
    xml.writeEmptyElement("line");
    attribute("x1", number(from.x()));
    attribute("y1", number(from.y()));
    attribute("x2", number(to.x()));
    attribute("y2", number(to.y()));
    attribute("stroke", stroke);
    attribute("stroke-width", number(width));
    attribute("stroke-dasharray", dashes);
  }

  /** Parallel lines across an area, so that it stands out without colour. */
  void hatched(List<Spot> corners, String stroke) throws XMLStreamException {
    for (Hatch.Stroke each : Hatch.across(corners)) {
      line(each.from(), each.to(), stroke, 0.25);
    }
  }

  void dot(Spot at, double radius, String fill) throws XMLStreamException {
    circle(at, radius, fill, "none");
  }

  void circle(Spot at, double radius, String fill, String stroke) throws XMLStreamException {
    extent.hold(at, radius + MARGIN);
    xml.writeEmptyElement("circle");
    attribute("cx", number(at.x()));
    attribute("cy", number(at.y()));
    attribute("r", number(radius));
    attribute("fill", fill);
    attribute("stroke", stroke);
  }

  void text(Spot at, String anchor, String words) throws XMLStreamException {
    text(at, anchor, words, WORDS);
  }

  void text(Spot at, String anchor, String words, double size) throws XMLStreamException {
    write(at, anchor, words, size, Ink.LINE);
  }

  private void write(Spot at, String anchor, String words, double size, String fill)
      throws XMLStreamException {
    extent.holdWords(at, anchor, words.codePointCount(0, words.length()), size);
    xml.writeStartElement("text");
    attribute("x", number(at.x()));
    attribute("y", number(at.y()));
    attribute("font-size", number(size));
    attribute("text-anchor", anchor);
    attribute("fill", fill);
    attribute("stroke", "none");
    xml.writeCharacters(Plain.text(words));
    xml.writeEndElement();
  }

  /** Words on a tooth, which is light on any page. */
  void dark(Spot middle, String words, double size) throws XMLStreamException {
    write(middle, "middle", words, size, Ink.ON_TOOTH);
  }

  /**
   * Ten millimetres of the drawing, so that it can be measured at any size.
   *
   * @param paper mm on the paper for one of them
   */
  void scale(Spot left, double paper) throws XMLStreamException {
    Spot right = left.plus(10 * paper, 0);
    line(left, right, "currentColor", 0.5);
    line(left.plus(0, -1), left.plus(0, 1), "currentColor", 0.5);
    line(right.plus(0, -1), right.plus(0, 1), "currentColor", 0.5);
    text(right.plus(1.5, 1), "start", "10 mm", SMALL);
  }

  private void attribute(String name, String value) throws XMLStreamException {
    xml.writeAttribute(name, value);
  }

  /** Two decimals are a hundredth of a millimetre on paper. */
  static String number(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }
}
