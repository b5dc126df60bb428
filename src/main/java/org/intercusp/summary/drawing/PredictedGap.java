package org.intercusp.summary.drawing;

import java.util.List;
import java.util.Optional;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.treatment.Bite;

/**
 * The gaps that are predicted of a bite, in mm, as the figures of its treatment tell them. A drawing
 * reckons none of its own, so that it can't show another one than stands beside it: which jaw is
 * assumed depends on the day and on the age from which the clinic counts a patient as adult.
 */
public final class PredictedGap {

  private PredictedGap() {}

  public static Optional<Double> firstPremolar(Bite bite, List<Figure> figures) {
    return of("gap-first-premolar", bite, figures);
  }

  public static Optional<Double> firstMolar(Bite bite, List<Figure> figures) {
    return of("gap-first-molar", bite, figures);
  }

  private static Optional<Double> of(String name, Bite bite, List<Figure> figures) {
    return figures.stream()
        .filter(figure -> figure.name().equals(name) && figure.subject().equals(bite.id()))
        .map(Figure::value)
        .filter(Value.Numeric.class::isInstance)
        .map(Value.Numeric.class::cast)
        .map(gap -> gap.number().doubleValue())
        .findFirst();
  }
}
