package org.intercusp.conformance;

import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * A resource that stands inside another document, in its own text. It is judged as a document by
 * itself, of which everything around it is blanked so that lines and columns stay those of the
 * whole; what is said of it is then told as of the whole.
 */
public final class Excerpt {

  private final String type;
  private final Format format;
  private final String expression;
  private final String text;
  private final Spot insertion;
  private final int inserted;

  private Excerpt(
      String type,
      Format format,
      String expression,
      String text,
      Spot insertion,
      int inserted) {
    this.type = type;
    this.format = format;
    this.expression = expression;
    this.text = text;
    this.insertion = insertion;
    this.inserted = inserted;
  }

  /**
   * From the characters {@code start} to {@code end} of a document.
   *
   * @param expression the FHIRPath of the resource in the whole
   */
  static Excerpt of(
      String whole, int start, int end, Format format, String type, String expression) {
    StringBuilder text = new StringBuilder(end);
    for (int i = 0; i < start; i++) {
      text.append(whole.charAt(i) == '\n' ? '\n' : ' ');
    }
    text.append(whole, start, end);
    return new Excerpt(type, format, expression, text.toString(), Spot.START, 0);
  }

  /** The same with what stood around it and it needs, such as the namespace it is in. */
  Excerpt with(String declarations, int offset) {
    String whole = new StringBuilder(text).insert(offset, declarations).toString();
    return new Excerpt(
        type, format, expression, whole, Spot.of(text, offset), declarations.length());
  }

  /** The type of the resource; empty where none is said. */
  public String type() {
    return type;
  }

  Format format() {
    return format;
  }

  byte[] bytes() {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  /** What was said of the excerpt, of the whole. */
  Issue ofWhole(Issue issue) {
    return new Issue(
        issue.weight(),
        issue.type(),
        issue.rule(),
        issue.text(),
        issue.expression() == null ? expression : outer(issue.expression()),
        issue.value(),
        issue.line(),
        issue.column() == null ? null : column(issue.line(), issue.column()));
  }

  private String outer(String inner) {
    // The guard's paths begin below the resource, all others with its type.
    if (!Character.isUpperCase(inner.charAt(0))) {
      return expression + "." + inner;
    }
    int root = inner.indexOf('.');
    return root < 0 ? expression : expression + inner.substring(root);
  }

  private Integer column(@Nullable Integer line, int column) {
    boolean behind =
        line != null && line == insertion.line() && column > insertion.column();
    return behind ? Math.max(insertion.column(), column - inserted) : column;
  }
}
