package org.intercusp.finding;

/**
 * Where a number or a rule comes from.
 *
 * @param kind how far to trust it
 * @param citation journal, year, volume and pages, and what of it is from memory where only a part
 *     is; empty for common practice
 */
public record Source(SourceClass kind, String citation) {

  public static final Source COMMON_PRACTICE = new Source(SourceClass.COMMON_PRACTICE, "");

  public Source {
    if (citation.isBlank() != (kind == SourceClass.COMMON_PRACTICE)) {
      throw new IllegalArgumentException("a source has a citation unless it is common practice");
    }
  }

  public static Source published(String citation) {
    return new Source(SourceClass.PUBLISHED, citation);
  }

  public static Source memoryOf(String citation) {
    return new Source(SourceClass.MEMORY, citation);
  }

  /**
   * Published, and read but for a part.
   *
   * @param recalled which part is from memory, and of what
   */
  public static Source partlyMemory(String citation, String recalled) {
    return new Source(SourceClass.PARTLY_MEMORY, citation + "; " + recalled);
  }

  /** What a person reads. */
  public String shown() {
    return switch (kind) {
      case PUBLISHED, PARTLY_MEMORY -> citation;
      case COMMON_PRACTICE -> kind.shown();
      case MEMORY -> "from memory of " + citation;
    };
  }
}
