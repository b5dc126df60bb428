package org.intercusp.analysis.index;

import java.util.Arrays;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.OutcomeScores;

/** How the components of the peer assessment rating are weighted into one score, in points. */
public enum ParWeighting {
  /** Eur J Orthod 1992;14:180-187. */
  UK("uk", 1, 1, 1, 6, 2, 4),
  /** Am J Orthod Dentofacial Orthop 1995;107:172-176, from memory. */
  US("us", 1, 0, 2, 5, 3, 3);

  private static final String UK_CITATION = "Eur J Orthod 1992;14:180-187";
  private static final String US_CITATION = "Am J Orthod Dentofacial Orthop 1995;107:172-176";

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

  /** Of the weights, which is all where an examiner gave the components. */
  public Source source() {
    return this == UK ? Source.published(UK_CITATION) : Source.memoryOf(US_CITATION);
  }

  /** Of a score whose components were, or may have been, computed from findings. */
  public Source sourceWithTables() {
    return this == UK
        ? Source.partlyMemory(UK_CITATION, PeerAssessment.TABLES)
        : Source.memoryOf(US_CITATION + "; " + PeerAssessment.TABLES);
  }

  Source source(Scored.Origin... origins) {
    return Arrays.asList(origins).contains(Scored.Origin.FINDINGS) ? sourceWithTables() : source();
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
