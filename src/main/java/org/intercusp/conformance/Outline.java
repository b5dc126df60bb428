package org.intercusp.conformance;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a document is, from its text alone: the type at its root and, of Parameters, what each
 * parameter holds. No model of a library is asked, since a model keeps only what it knows, and what
 * it does not know is to be judged too.
 *
 * @param type of the resource at the root; absent where none is said
 * @param parameters of Parameters, in their order; empty for every other type
 */
public record Outline(@Nullable String type, List<Parameter> parameters) {

  static final String PARAMETERS = "Parameters";

  public Outline {
    parameters = List.copyOf(parameters);
  }

  /**
   * One parameter.
   *
   * @param name empty where it has none
   * @param expression the FHIRPath of its value
   * @param value as written, where it is a primitive
   * @param line of the value, or of the parameter where it has none; from 1
   * @param column likewise
   * @param resource what it holds as a resource
   */
  public record Parameter(
      String name,
      String expression,
      @Nullable String value,
      int line,
      int column,
      @Nullable Excerpt resource) {}

  /** Of an admitted document. */
  public static Outline of(Admission.Admitted document, Format format) {
    return switch (format) {
      case JSON -> new JsonOutline(document.text()).read();
      case XML -> new XmlOutline(document.text()).read();
    };
  }
}
