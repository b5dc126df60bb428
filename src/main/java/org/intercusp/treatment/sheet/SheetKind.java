package org.intercusp.treatment.sheet;

import java.util.Arrays;
import java.util.Optional;

/** What a row of a sheet records, as its {@code record} cell says it. */
enum SheetKind {
  /** The treatment itself: people, diagnosis, completion. */
  TREATMENT("treatment", ""),
  BITE("bite", "bites"),
  APPLIANCE("appliance", "appliances"),
  STAGE("stage", "stages"),
  REVIEW("review", "reviews");

  private final String word;
  private final String list;

  SheetKind(String word, String list) {
    this.word = word;
    this.list = list;
  }

  /** The text of the {@code record} cell. */
  public String word() {
    return word;
  }

  /** The list of the treatment file it goes into; empty for the treatment itself. */
  String list() {
    return list;
  }

  /** The member whose date orders the list; empty where the order is the clinic's own. */
  String orderedBy() {
    return switch (this) {
      case BITE -> "recordedOn";
      case REVIEW -> "date";
      default -> "";
    };
  }

  static Optional<SheetKind> of(String word) {
    return Arrays.stream(values()).filter(kind -> kind.word.equals(word)).findFirst();
  }
}
