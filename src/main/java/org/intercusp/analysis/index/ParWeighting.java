package org.intercusp.analysis.index;

import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.OutcomeScores;

/** How the components of the peer assessment rating are weighted into one score, in points. */
public enum ParWeighting {
  /** Eur J Orthod 1992;14:180-187. */
  UK("uk", 1, 1, 1, 6, 2, 4),
  /** Am J Orthod Dentofacial Orthop 1995;107:172-176, from memory. */
  US("us", 1, 0, 2, 5, 3, 3);

  private final String code;
  private final int upperAnterior;
  private final int lowerAnterior;
  private final int buccal;
  private final int overjet;
  private final int overbite;
  private final int centreline;

  ParWeighting(
      String code,
      int upperAnterior,
      int lowerAnterior,
      int buccal,
      int overjet,
      int overbite,
      int centreline) {
    this.code = code;
    this.upperAnterior = upperAnterior;
    this.lowerAnterior = lowerAnterior;
    this.buccal = buccal;
    this.overjet = overjet;
    this.overbite = overbite;
    this.centreline = centreline;
  }

  public String code() {
    return code;
  }

  public Unit unit() {
    return Unit.SCORE;
  }

  public Source source() {
    return this == UK
        ? Source.published("Eur J Orthod 1992;14:180-187")
        : Source.memoryOf("Am J Orthod Dentofacial Orthop 1995;107:172-176");
  }

  public int score(OutcomeScores.Par par) {
    return upperAnterior * par.upperAnterior()
        + lowerAnterior * par.lowerAnterior()
        + buccal * (par.buccalRight() + par.buccalLeft())
        + overjet * par.overjet()
        + overbite * par.overbite()
        + centreline * par.centreline();
  }
}
