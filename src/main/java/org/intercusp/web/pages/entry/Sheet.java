package org.intercusp.web.pages.entry;

import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * A form: one entry of a list of the treatment file, member by member.
 *
 * @param title the heading of the page
 * @param list the list of the file it adds to
 * @param shape the entry's name in the schema
 * @param date the member that says when, which orders the list
 * @param standIns what a needed member counts as while it is not typed yet, so that the rest can be
 *     computed; a step {@code *} stands for any row
 */
record Sheet(
    String title,
    String list,
    String shape,
    String date,
    List<Section> sections,
    List<Group> groups,
    Map<String, Object> standIns) {

  /** Fields that belong together. */
  record Section(String title, String hint, List<Field> fields) {}

  /**
   * Rows of the same fields.
   *
   * @param list the member that holds them
   * @param shape a row's name in the schema
   * @param one what one row is called
   */
  record Group(String list, String shape, String title, String one, List<Field> fields) {}

  Stream<Field> fields() {
    return sections.stream().flatMap(section -> section.fields().stream());
  }
}
