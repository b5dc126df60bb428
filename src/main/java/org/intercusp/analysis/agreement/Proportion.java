package org.intercusp.analysis.agreement;

import org.hipparchus.stat.interval.BinomialProportion;
import org.hipparchus.stat.interval.ConfidenceInterval;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;

/**
 * So many of so many, as a share 0 to 1.
 *
 * @param events 0 to {@code of}
 */
public record Proportion(int events, int of) {

  /** The score interval: from memory of its first publication. */
  public static final Source SOURCE = Source.memoryOf("J Am Stat Assoc 1927;22:209-212");

  public Proportion {
    if (events < 0 || events > of) {
      throw new IllegalArgumentException("a proportion counts 0 to all");
    }
  }

  public Reckoned<Double> share() {
    return of == 0 ? nothing() : Reckoned.known((double) events / of);
  }

  /** Wilson's score interval without continuity correction. */
  public Reckoned<Interval> wilson(double level) {
    return share()
        .map(
            share -> {
              ConfidenceInterval found =
                  BinomialProportion.getWilsonScoreInterval(of, share, level);
              // Rounding leaves the interval of none at all a hair above 0.
              return new Interval(
                  Math.max(0, Math.min(share, found.getLowerBound())),
                  Math.min(1, Math.max(share, found.getUpperBound())),
                  level);
            });
  }

  private static <T> Reckoned<T> nothing() {
    return Reckoned.lacking("there is no case to take a share of");
  }
}
