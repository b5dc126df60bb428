package org.intercusp.finding;

/** A JSON pointer (RFC 6901) into a treatment file; the empty text points to the whole file. */
public record Pointer(String text) {

  public static final Pointer ROOT = new Pointer("");

  public Pointer child(String member) {
    return new Pointer(text + "/" + member.replace("~", "~0").replace("/", "~1"));
  }

  public Pointer child(int index) {
    return new Pointer(text + "/" + index);
  }

  /** A pointer from alternating member names and indexes: {@code of("bites", 0, "id")}. */
  public static Pointer of(Object... steps) {
    Pointer at = ROOT;
    for (Object step : steps) {
      at = step instanceof Integer index ? at.child(index) : at.child(step.toString());
    }
    return at;
  }

  @Override
  public String toString() {
    return text;
  }
}
