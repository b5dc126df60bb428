package org.intercusp.dentition;

/**
 * A tooth in the two-digit notation of ISO 3950:2016: the first digit is the quadrant (1-4
 * permanent, 5-8 deciduous, clockwise from the patient's upper right), the second counts from the
 * midline (1-8 permanent, 1-5 deciduous). Anything else is refused with {@link
 * IllegalArgumentException}.
 */
public record Tooth(String code) implements Comparable<Tooth> {

  public Tooth {
    if (!isCode(code)) {
      throw new IllegalArgumentException("not an ISO 3950 tooth code: " + code);
    }
  }

  /** Whether the text names a tooth in ISO 3950 notation. */
  public static boolean isCode(String text) {
    return text.matches("[1-4][1-8]|[5-8][1-5]");
  }

  private int quadrant() {
    return code.charAt(0) - '0';
  }

  /** Counted from the midline: 1 central incisor ... 8 third molar (5 second deciduous molar). */
  public int position() {
    return code.charAt(1) - '0';
  }

  public boolean deciduous() {
    return quadrant() > 4;
  }

  public Arch arch() {
    int q = (quadrant() - 1) % 4;
    return q < 2 ? Arch.UPPER : Arch.LOWER;
  }

  public Side side() {
    int q = (quadrant() - 1) % 4;
    return q == 0 || q == 3 ? Side.RIGHT : Side.LEFT;
  }

  /** The same tooth on the other side of the mouth. */
  public Tooth mirrored() {
    int base = deciduous() ? 4 : 0;
    int q = quadrant() - base;
    int other = q <= 2 ? 3 - q : 7 - q;
    return new Tooth("" + (base + other) + position());
  }

  @Override
  public int compareTo(Tooth other) {
    return code.compareTo(other.code);
  }

  @Override
  public String toString() {
    return code;
  }
}
