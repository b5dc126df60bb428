package org.intercusp.analysis.bite;

import java.math.MathContext;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;

/**
 * The protrusive path from two overjets alone, where no scale was used: {@code P =
 * overjet(habitual) - overjet(maximum)}, a reverse overjet being negative. Common practice, no
 * source.
 */
public record OverjetPath(Length overjetHabitual, Length overjetMaximum) {

  public Length path() {
    return overjetHabitual.minus(overjetMaximum);
  }

  /** Millimetres of advance that a share of the path allows. */
  public Length allowed(Share limit) {
    return new Length(path().value().multiply(limit.value()));
  }

  /** Share of the path that a bite with the incisors edge to edge uses. */
  public Reckoned<Share> edgeToEdge() {
    if (path().value().signum() <= 0) {
      return Reckoned.lacking("the overjet at maximum protrusion is not smaller than the habitual");
    }
    return Reckoned.known(
        new Share(overjetHabitual.value().divide(path().value(), MathContext.DECIMAL64)));
  }

  /** Whether edge to edge stays within a share of the path; false when there is no path. */
  public boolean allowsEdgeToEdge(Share limit) {
    return path().value().signum() > 0 && !overjetHabitual.isAbove(allowed(limit));
  }
}
