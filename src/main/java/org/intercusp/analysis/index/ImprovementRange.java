package org.intercusp.analysis.index;

import org.intercusp.analysis.Reckoned;

/**
 * What an improvement could be within the reading error of both scorings: the least when the start
 * is read smallest and the later scoring largest, the greatest the other way round. Classes of
 * improvement follow the scores the same way.
 */
public record ImprovementRange(ScoreRange before, ScoreRange after) {

  public ParChange par() {
    return new ParChange(before.scored(), after.scored());
  }

  public ParChange leastPar() {
    return new ParChange(before.lowest(), after.highest());
  }

  public ParChange greatestPar() {
    return new ParChange(before.highest(), after.lowest());
  }

  /** ICON points of improvement. */
  public int icon() {
    return ComplexityIndex.improvement(before.scored(), after.scored());
  }

  public int leastIcon() {
    return ComplexityIndex.improvement(before.lowest(), after.highest());
  }

  public int greatestIcon() {
    return ComplexityIndex.improvement(before.highest(), after.lowest());
  }

  public ComplexityIndex.Improvement iconClass() {
    return ComplexityIndex.improvementClass(before.scored(), after.scored());
  }

  public ComplexityIndex.Improvement leastIconClass() {
    return ComplexityIndex.improvementClass(before.lowest(), after.highest());
  }

  public ComplexityIndex.Improvement greatestIconClass() {
    return ComplexityIndex.improvementClass(before.highest(), after.lowest());
  }

  static Reckoned<ImprovementRange> between(
      Reckoned<ScoreRange> before, Reckoned<ScoreRange> after) {
    return before.flatMap(b -> after.map(a -> new ImprovementRange(b, a)));
  }
}
