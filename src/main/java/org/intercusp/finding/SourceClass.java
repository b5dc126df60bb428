package org.intercusp.finding;

/** How far a number can be trusted by where it comes from. */
public enum SourceClass {
  PUBLISHED("published"),
  COMMON_PRACTICE("common practice, no source"),
  PARTLY_MEMORY("published, in part from memory"),
  MEMORY("from memory of the named source");

  private final String shown;

  SourceClass(String shown) {
    this.shown = shown;
  }

  public String shown() {
    return shown;
  }
}
