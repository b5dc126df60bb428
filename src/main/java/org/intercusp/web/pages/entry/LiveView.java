package org.intercusp.web.pages.entry;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What follows from what has been typed so far.
 *
 * @param said the same in a sentence, for who hears the page
 * @param open labels of what is still needed or cannot be taken
 * @param figures computed so far
 * @param findings what the record gains by the entry
 * @param settled what is no longer found with the entry
 * @param harm what a sign of harm does, empty without one
 * @param drawing SVG of the bite
 */
public record LiveView(
    String said,
    List<String> open,
    List<Line> figures,
    List<Told> findings,
    List<Told> settled,
    String harm,
    @Nullable String drawing) {

  public LiveView {
    open = List.copyOf(open);
    figures = List.copyOf(figures);
    findings = List.copyOf(findings);
    settled = List.copyOf(settled);
  }

  /**
   * A figure.
   *
   * @param usual its usual range, or what it was before
   * @param note assumptions and borderline
   */
  public record Line(String name, String value, String usual, String note) {}

  /** Whether everything needed is there and can be taken. */
  public boolean complete() {
    return open.isEmpty();
  }

  static LiveView empty() {
    return new LiveView("", List.of("everything"), List.of(), List.of(), List.of(), "", null);
  }
}
