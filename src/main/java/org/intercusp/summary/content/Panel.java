package org.intercusp.summary.content;

import java.util.List;

/**
 * A titled part of a document.
 *
 * @param sixths of the width of the page that it takes
 */
public record Panel(String title, int sixths, List<Part> parts) {

  public Panel {
    parts = List.copyOf(parts);
  }

  static Panel wide(String title, Part... parts) {
    return new Panel(title, 6, List.of(parts));
  }

  static Panel half(String title, Part... parts) {
    return new Panel(title, 3, List.of(parts));
  }
}
