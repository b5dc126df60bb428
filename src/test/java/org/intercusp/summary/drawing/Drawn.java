package org.intercusp.summary.drawing;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** A drawing read back: its elements, and which of its coordinates lie off the paper. */
final class Drawn {

  private static final Pattern NUMBER = Pattern.compile("-?\\d+\\.\\d+");

  /** Mean width of a letter of a narrow sans serif as a share of its size. */
  private static final double LETTER = 0.5;

  private final Element root;
  private final double[] box;

  Drawn(String svg) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    root =
        factory
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(svg)))
            .getDocumentElement();
    box = numbers(root.getAttribute("viewBox"));
  }

  List<Element> elements() {
    NodeList all = root.getElementsByTagName("*");
    List<Element> elements = new ArrayList<>(List.of(root));
    for (int i = 0; i < all.getLength(); i++) {
      elements.add((Element) all.item(i));
    }
    return elements;
  }

  List<String> words() {
    return elements().stream()
        .filter(e -> e.getTagName().equals("text"))
        .map(Element::getTextContent)
        .toList();
  }

  String first(String tag) {
    return root.getElementsByTagName(tag).item(0).getTextContent();
  }

  String attribute(String name) {
    return root.getAttribute(name);
  }

  double width() {
    return box[2];
  }

  /** What lies off the paper. */
  List<String> outside() {
    List<String> outside = new ArrayList<>();
    for (Element each : elements()) {
      switch (each.getTagName()) {
        case "line" -> {
          spot(outside, each, number(each, "x1"), number(each, "y1"));
          spot(outside, each, number(each, "x2"), number(each, "y2"));
        }
        case "circle" -> {
          double r = number(each, "r");
          spot(outside, each, number(each, "cx") - r, number(each, "cy") - r);
          spot(outside, each, number(each, "cx") + r, number(each, "cy") + r);
        }
        case "path" -> {
          double[] d = numbers(each.getAttribute("d"));
          for (int i = 0; i + 1 < d.length; i += 2) {
            spot(outside, each, d[i], d[i + 1]);
          }
        }
        case "text" -> text(outside, each);
        default -> {}
      }
    }
    return outside;
  }

  private void text(List<String> outside, Element each) {
    double size = number(each, "font-size");
    double length = each.getTextContent().length() * size * LETTER;
    double start =
        switch (each.getAttribute("text-anchor")) {
          case "middle" -> number(each, "x") - length / 2;
          case "end" -> number(each, "x") - length;
          default -> number(each, "x");
        };
    spot(outside, each, start, number(each, "y") - size * 0.7);
    spot(outside, each, start + length, number(each, "y"));
  }

  private void spot(List<String> outside, Element each, double x, double y) {
    double slack = 0.011;
    boolean in =
        x >= box[0] - slack
            && x <= box[0] + box[2] + slack
            && y >= box[1] - slack
            && y <= box[1] + box[3] + slack;
    if (!in) {
      outside.add(each.getTagName() + " at " + x + ", " + y + " " + each.getTextContent());
    }
  }

  private static double number(Element each, String name) {
    return Double.parseDouble(each.getAttribute(name));
  }

  private static double[] numbers(String text) {
    return NUMBER
        .matcher(text)
        .results()
        .map(MatchResult::group)
        .mapToDouble(Double::parseDouble)
        .toArray();
  }
}
