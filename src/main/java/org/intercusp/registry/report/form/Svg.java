package org.intercusp.registry.report.form;

import java.util.Locale;

/**
 * One chart as inline SVG below its caption, to be set into a figure: a description for those who
 * do not see it, classes instead of styles so that the page's stylesheet colours it by day and by
 * night.
 */
final class Svg {

  private final StringBuilder body = new StringBuilder();
  private final int width;
  private final int height;
  private final String id;
  private final String title;
  private final String description;

  Svg(int width, int height, String id, String title, String description) {
    this.width = width;
    this.height = height;
    this.id = id;
    this.title = title;
    this.description = description;
  }

  static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;")
        .replace("'", "&#39;");
  }

  Svg line(double x1, double y1, double x2, double y2, String type) {
    body.append(
        String.format(
            Locale.ROOT,
            "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" class=\"%s\"/>",
            x1,
            y1,
            x2,
            y2,
            type));
    return this;
  }

  Svg rectangle(double x, double y, double w, double h, String type) {
    body.append(
        String.format(
            Locale.ROOT,
            "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" class=\"%s\"/>",
            x,
            y,
            Math.max(0, w),
            h,
            type));
    return this;
  }

  Svg dot(double x, double y, String type) {
    body.append(
        String.format(
            Locale.ROOT, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"4\" class=\"%s\"/>", x, y, type));
    return this;
  }

  Svg path(String points, String type) {
    body.append("<path d=\"").append(points).append("\" class=\"").append(type).append("\"/>");
    return this;
  }

  /** Text whose class says how it is anchored: start, end or middle. */
  Svg text(double x, double y, String anchor, String words) {
    body.append(
            String.format(
                Locale.ROOT, "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">", x, y, anchor))
        .append(escaped(words))
        .append("</text>");
    return this;
  }

  String drawn() {
    return "<figcaption id=\""
        + id
        + "-t\">"
        + escaped(title)
        + "</figcaption><svg class=\"chart\" viewBox=\"0 0 "
        + width
        + " "
        + height
        + "\" role=\"img\" aria-labelledby=\""
        + id
        + "-t "
        + id
        + "-d\">"
        + "<desc id=\""
        + id
        + "-d\">"
        + escaped(description)
        + "</desc>"
        + body
        + "</svg>";
  }
}
