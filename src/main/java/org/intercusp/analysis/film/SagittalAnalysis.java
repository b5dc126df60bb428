package org.intercusp.analysis.film;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hipparchus.analysis.differentiation.Gradient;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;

/**
 * Sagittal-occlusal analysis of two films (Am J Orthod 1982;82:104-113): distances along the
 * occlusal line of the first film (upper distobuccal cusp to upper incisal edge) from sella, that
 * line carried to the second film by superimposing on SN at S. Both magnifications are needed.
 *
 * @param overjet correction of the overjet from incisal edges
 * @param molar correction of the molar relation from mesial contacts
 */
public record SagittalAnalysis(
    Film first, Film second, Reckoned<Correction> overjet, Reckoned<Correction> molar) {

  public static SagittalAnalysis between(Film first, Film second) {
    return new SagittalAnalysis(
        first,
        second,
        correction(first, second, Landmark.UI, Landmark.LI),
        correction(first, second, Landmark.U6, Landmark.L6));
  }

  private static Reckoned<Correction> correction(
      Film first, Film second, Landmark upper, Landmark lower) {
    return distances(first, second, upper, lower)
        .flatMap(
            films ->
                films
                    .before()
                    .rounded()
                    .flatMap(
                        before ->
                            films
                                .after()
                                .rounded()
                                .map(after -> Correction.between(before, after))));
  }

  private static Reckoned<TwoFilms> distances(
      Film first, Film second, Landmark upper, Landmark lower) {
    Tracing before = Tracing.firstOfTwo(first, second);
    Tracing after = Tracing.secondOfTwo(first, second);
    return lineToBase(before)
        .flatMap(
            turn ->
                distances(before, turn, upper, lower)
                    .flatMap(
                        one ->
                            distances(after, turn, upper, lower)
                                .map(two -> new TwoFilms(one, two))));
  }

  private record TwoFilms(JawDistances before, JawDistances after) {

    Gradient correction(CorrectionPart part) {
      return part.between(before, after);
    }

    Gradient percent(CorrectionPart part) {
      return correction(part).multiply(100).divide(correction(CorrectionPart.TOTAL));
    }
  }

  /** How far the occlusal line of the first film is turned from SN, in degrees. */
  private static Reckoned<Gradient> lineToBase(Tracing first) {
    Optional<String> why = first.lacking(Line.SN, Line.OCCLUSAL_LINE);
    return why.isPresent()
        ? Reckoned.lacking(named(first.film(), why.get()))
        : Reckoned.known(first.direction(Line.OCCLUSAL_LINE).subtract(first.direction(Line.SN)));
  }

  private static Reckoned<JawDistances> distances(
      Tracing tracing, Gradient turn, Landmark upper, Landmark lower) {
    Optional<String> why =
        tracing.lacking(Set.of(Landmark.A, Landmark.POG, upper, lower), List.of(Line.SN));
    if (why.isPresent()) {
      return Reckoned.lacking(named(tracing.film(), why.get()));
    }
    Reckoned<Double> enlargement = tracing.enlargement();
    if (enlargement.result().isEmpty()) {
      return Reckoned.lacking(named(tracing.film(), enlargement.reason()));
    }
    Gradient forward = tracing.direction(Line.SN).add(turn);
    return enlargement.map(
        factor ->
            new JawDistances(
                tracing.along(forward, Landmark.S, Landmark.A).divide(factor),
                tracing.along(forward, Landmark.S, Landmark.POG).divide(factor),
                tracing.along(forward, Landmark.S, upper).divide(factor),
                tracing.along(forward, Landmark.S, lower).divide(factor)));
  }

  private static String named(Film film, String why) {
    return "film " + film.id() + ": " + why;
  }

  /**
   * Standard uncertainty in millimetres of the correction of the overjet, when each coordinate of
   * both films has such an error.
   */
  public Reckoned<Double> overjetUncertainty(ReadingError error) {
    return uncertainty(films(Landmark.UI, Landmark.LI), CorrectionPart.TOTAL, error);
  }

  /** The same for the correction of the molar relation. */
  public Reckoned<Double> molarUncertainty(ReadingError error) {
    return uncertainty(films(Landmark.U6, Landmark.L6), CorrectionPart.TOTAL, error);
  }

  private Reckoned<TwoFilms> films(Landmark upper, Landmark lower) {
    return distances(first, second, upper, lower);
  }

  private static Reckoned<Double> uncertainty(
      Reckoned<TwoFilms> films, CorrectionPart part, ReadingError error) {
    return films
        .flatMap(two -> Estimate.of(two.correction(part)))
        .map(known -> known.uncertainty(error));
  }

  /** Figures of both corrections, subject the second film. */
  public List<Figure> figures() {
    return figures(ReadingError.LANDMARK);
  }

  /** Figures when each coordinate has such an error; notes carry what comes of it. */
  public List<Figure> figures(ReadingError error) {
    FigureSheet sheet = new FigureSheet(second.id());
    add(sheet, "overjet-correction", overjet, films(Landmark.UI, Landmark.LI), error);
    add(sheet, "molar-correction", molar, films(Landmark.U6, Landmark.L6), error);
    return sheet.figures();
  }

  private void add(
      FigureSheet sheet,
      String name,
      Reckoned<Correction> correction,
      Reckoned<TwoFilms> films,
      ReadingError error) {
    for (CorrectionPart part : CorrectionPart.values()) {
      String suffix = part == CorrectionPart.TOTAL ? "" : "-" + part.code();
      sheet.number(
          name + suffix,
          correction.map(known -> known.part(part).value()),
          1,
          Unit.MILLIMETRE,
          context(doubt(correction, films, part, error)));
    }
    for (CorrectionPart part : List.of(CorrectionPart.SKELETAL, CorrectionPart.DENTAL)) {
      sheet.number(
          name + "-" + part.code() + "-percent",
          correction.flatMap(known -> known.percent(part)),
          1,
          Unit.PERCENT,
          context(
              films
                  .flatMap(two -> Estimate.of(two.percent(part)))
                  .map(known -> FigureSheet.uncertain(known.uncertainty(error), Unit.PERCENT))
                  .result()
                  .orElse("")));
    }
  }

  private Context context(String doubt) {
    String since = "since film " + first.id();
    return Context.of(Correction.SOURCE).noting(doubt.isEmpty() ? since : since + "; " + doubt);
  }

  private static String doubt(
      Reckoned<Correction> correction,
      Reckoned<TwoFilms> films,
      CorrectionPart part,
      ReadingError error) {
    return correction
        .flatMap(
            known ->
                uncertainty(films, part, error)
                    .map(
                        u ->
                            FigureSheet.uncertain(u, Unit.MILLIMETRE)
                                + (Math.abs(known.part(part).asDouble()) <= u
                                    ? "; borderline to none"
                                    : "")))
        .result()
        .orElse("");
  }
}
