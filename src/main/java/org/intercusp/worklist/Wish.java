package org.intercusp.worklist;

import org.jspecify.annotations.Nullable;

/**
 * What somebody looks for in the list.
 *
 * @param words each must stand in the patient's name or number or the treatment's id, whatever the
 *     case and the accents; empty for all
 * @param attention only those; absent for all
 * @param offset how many to skip
 * @param length how many at most, up to {@link #LONGEST}
 */
public record Wish(
    String words, @Nullable Attention attention, Order order, int offset, int length) {

  /** The longest page; common practice, no source. */
  public static final int LONGEST = 200;

  public Wish {
    if (offset < 0 || length < 1 || length > LONGEST) {
      throw new IllegalArgumentException("A page of the list has 1 to " + LONGEST + " treatments");
    }
  }
}
