package org.intercusp.analysis.index;

import java.math.BigDecimal;
import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Outcome;

/**
 * One scoring with the scores it would have if every reading in millimetres were smaller, or
 * larger, by its standard uncertainty. The tables never score a larger reading lower, so no other
 * reading within that error gives a score outside the range. What is judged by eye or counted
 * (aesthetic component, shares of a crown, interdigitation, teeth in crossbite) is taken as it
 * stands; so is a score given without findings.
 */
public final class Reread {

  private final Scored least;
  private final Scored scored;
  private final Scored most;
  private final boolean measured;

  private Reread(Scored least, Scored scored, Scored most, boolean measured) {
    this.least = least;
    this.scored = scored;
    this.most = most;
    this.measured = measured;
  }

  /** One scoring whose every reading has such an error. */
  public static Reread of(Outcome outcome, ReadingError error) {
    BigDecimal u = BigDecimal.valueOf(error.standardUncertainty());
    return new Reread(
        Scored.of(outcome, u.negate()),
        Scored.of(outcome),
        Scored.of(outcome, u),
        outcome.findings() != null);
  }

  public Scored scored() {
    return scored;
  }

  /** The weighted peer assessment rating in points. */
  public Reckoned<ScoreRange> par(ParWeighting weighting) {
    return range(least.par(weighting), scored.par(weighting), most.par(weighting));
  }

  /** ICON in points. */
  public Reckoned<ScoreRange> icon() {
    return range(
        least.icon().map(ComplexityIndex::score),
        scored.icon().map(ComplexityIndex::score),
        most.icon().map(ComplexityIndex::score));
  }

  /** Components of the peer assessment rating that the reading error can change, in words. */
  public Reckoned<List<String>> borderlinePar() {
    return measured().flatMap(known -> least.differingPar(most));
  }

  /** Components of ICON that the reading error can change, in words. */
  public Reckoned<List<String>> borderlineIcon() {
    return measured().flatMap(known -> least.differingIcon(most));
  }

  /** Whether the reading error can change whether treatment is needed. */
  public boolean borderlineNeed() {
    return scored
        .aesthetic()
        .flatMap(
            ac -> need(least, ac).flatMap(low -> need(most, ac).map(high -> !low.equals(high))))
        .result()
        .orElse(false);
  }

  private static Reckoned<Boolean> need(Scored scored, int aesthetic) {
    return scored.dhc().map(dhc -> TreatmentNeed.needed(DentalHealth.gradeOf(dhc), aesthetic));
  }

  private Reckoned<Scored> measured() {
    return measured
        ? Reckoned.known(scored)
        : Reckoned.lacking("scores are given without the findings they were read from");
  }

  private static Reckoned<ScoreRange> range(
      Reckoned<Integer> lowest, Reckoned<Integer> score, Reckoned<Integer> highest) {
    return score.flatMap(s -> lowest.flatMap(l -> highest.map(h -> new ScoreRange(l, s, h))));
  }
}
