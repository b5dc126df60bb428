package org.intercusp.summary.content;

import java.util.List;
import org.intercusp.summary.wording.Plain;

/**
 * A whole document before it takes a form.
 *
 * @param audience one word for the style sheet
 * @param language BCP 47 tag
 * @param direction {@code ltr} or {@code rtl}
 * @param rows panels that stand beside one another
 * @param cautions on every document
 */
public record Document(
    String audience,
    String language,
    String direction,
    String title,
    String subtitle,
    List<List<Panel>> rows,
    List<String> cautions) {

  public Document {
    title = Plain.text(title);
    subtitle = Plain.text(subtitle);
    rows = rows.stream().map(List::copyOf).toList();
    cautions = List.copyOf(cautions);
  }

  public List<Panel> panels() {
    return rows.stream().flatMap(List::stream).toList();
  }
}
