package org.intercusp.treatment;

import org.jspecify.annotations.Nullable;

/** Index scores as given by an examiner; at least one of the three is present. */
public record OutcomeScores(@Nullable Par par, @Nullable String dhc, @Nullable Icon icon) {

  /** Components of the PAR index, unweighted. */
  public record Par(
      int upperAnterior,
      int lowerAnterior,
      int buccalRight,
      int buccalLeft,
      int overjet,
      int overbite,
      int centreline) {}

  /** Components of ICON, unweighted. */
  public record Icon(
      int aesthetic,
      int crowdingSpacing,
      int crossbite,
      int vertical,
      int buccalRight,
      int buccalLeft) {}
}
