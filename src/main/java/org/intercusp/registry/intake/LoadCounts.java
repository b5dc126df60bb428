package org.intercusp.registry.intake;

/**
 * What a load has come to. Always: read = fresh + same + replaced + refused.
 *
 * @param read lines that are not blank
 * @param withdrawn how many of them withdrew a consent; each is among fresh, same or replaced too
 */
public record LoadCounts(
    long read, long fresh, long same, long replaced, long refused, long withdrawn) {

  static final LoadCounts NONE = new LoadCounts(0, 0, 0, 0, 0, 0);

  public LoadCounts {
    if (read != fresh + same + replaced + refused) {
      throw new IllegalArgumentException("the counts do not add up");
    }
  }

  LoadCounts plus(LoadCounts more) {
    return new LoadCounts(
        read + more.read,
        fresh + more.fresh,
        same + more.same,
        replaced + more.replaced,
        refused + more.refused,
        withdrawn + more.withdrawn);
  }

  /** In one line for a person. */
  public String shown() {
    return "%,d read = %,d new + %,d same + %,d replaced + %,d refused (%,d withdrawals)"
        .formatted(read, fresh, same, replaced, refused, withdrawn);
  }
}
