package org.intercusp.web.pages.entry;

import java.util.List;

/**
 * A member of the treatment file as a person enters it.
 *
 * @param path from the entry to the member, steps parted by a stroke, as in a JSON pointer; in a
 *     group from the row
 * @param label what the field is called
 * @param hint what a person must know to fill it in; the allowed range is added from the schema
 * @param needed whether the file must have it
 */
record Field(
    String path, String label, Kind kind, String hint, boolean needed, List<Option> options) {

  /** How a field is typed, and what it becomes in the file. */
  enum Kind {
    LENGTH,
    HOURS,
    WHOLE,
    DATE,
    TEXT,
    LINES,
    CHOICE,
    FLAG,
    /** Boxes to tick, with one for "none": nothing ticked says that nobody looked. */
    BOXES
  }

  /** What stands for an empty list in a row of boxes. */
  static final String NONE = "none";

  private static final List<Option> YES_NO =
      List.of(new Option("true", "yes"), new Option("false", "no"));

  static Field of(Kind kind, String path, String label, String hint) {
    return new Field(path, label, kind, hint, false, kind == Kind.FLAG ? YES_NO : List.of());
  }

  static Field length(String path, String label, String hint) {
    return of(Kind.LENGTH, path, label, hint);
  }

  static Field choice(String path, String label, String hint, List<Option> options) {
    return new Field(path, label, Kind.CHOICE, hint, false, options);
  }

  Field asNeeded() {
    return new Field(path, label, kind, hint, true, options);
  }

  /** The same in a row of a group. */
  Field under(String row) {
    return new Field(row + "/" + path, label, kind, hint, needed, options);
  }

  boolean numeric() {
    return kind == Kind.LENGTH || kind == Kind.HOURS || kind == Kind.WHOLE;
  }

  String unit() {
    return switch (kind) {
      case LENGTH -> "mm";
      case HOURS -> "h/d";
      default -> "";
    };
  }
}
