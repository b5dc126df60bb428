package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.measure.Length;
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
    return lineToBase(first)
        .flatMap(
            turn ->
                readings(first, turn, upper, lower)
                    .flatMap(
                        before ->
                            readings(second, turn, upper, lower)
                                .map(after -> Correction.between(before, after))));
  }

  /** How far the occlusal line of the first film is turned from SN, in degrees. */
  private static Reckoned<Double> lineToBase(Film first) {
    Tracing tracing = new Tracing(first);
    Optional<String> why = tracing.lacking(Line.SN, Line.OCCLUSAL_LINE);
    if (why.isPresent()) {
      return Reckoned.lacking(named(first, why.get()));
    }
    return Reckoned.known(tracing.direction(Line.OCCLUSAL_LINE) - tracing.direction(Line.SN));
  }

  private static Reckoned<JawReadings> readings(
      Film film, double turn, Landmark upper, Landmark lower) {
    Tracing tracing = new Tracing(film);
    Optional<String> why =
        tracing.lacking(Set.of(Landmark.A, Landmark.POG, upper, lower), List.of(Line.SN));
    if (why.isPresent()) {
      return Reckoned.lacking(named(film, why.get()));
    }
    Reckoned<Double> enlargement = tracing.enlargement();
    if (enlargement.result().isEmpty()) {
      return Reckoned.lacking(named(film, enlargement.reason()));
    }
    double forward = tracing.direction(Line.SN) + turn;
    return enlargement.map(
        factor ->
            new JawReadings(
                distance(tracing, forward, factor, Landmark.A),
                distance(tracing, forward, factor, Landmark.POG),
                distance(tracing, forward, factor, upper),
                distance(tracing, forward, factor, lower)));
  }

  private static Length distance(
      Tracing tracing, double forward, double factor, Landmark landmark) {
    return new Length(Tracing.decimal(tracing.along(forward, Landmark.S, landmark) / factor));
  }

  private static String named(Film film, String why) {
    return "film " + film.id() + ": " + why;
  }

  /** Figures of both corrections, subject the second film. */
  public List<Figure> figures() {
    FigureSheet sheet = new FigureSheet(second.id());
    add(sheet, "overjet-correction", overjet);
    add(sheet, "molar-correction", molar);
    return sheet.figures();
  }

  private void add(FigureSheet sheet, String name, Reckoned<Correction> correction) {
    Context context = Context.of(Correction.SOURCE).noting("since film " + first.id());
    sheet.number(name, millimetres(correction, Part.TOTAL), 1, Unit.MILLIMETRE, context);
    sheet.number(
        name + "-skeletal", millimetres(correction, Part.SKELETAL), 1, Unit.MILLIMETRE, context);
    sheet.number(
        name + "-dental", millimetres(correction, Part.DENTAL), 1, Unit.MILLIMETRE, context);
    sheet.number(
        name + "-skeletal-percent",
        correction.flatMap(Correction::skeletalPercent),
        1,
        Unit.PERCENT,
        context);
    sheet.number(
        name + "-dental-percent",
        correction.flatMap(Correction::dentalPercent),
        1,
        Unit.PERCENT,
        context);
  }

  private static Reckoned<BigDecimal> millimetres(Reckoned<Correction> correction, Part part) {
    return correction.map(
        known ->
            switch (part) {
              case TOTAL -> known.total().value();
              case SKELETAL -> known.skeletal().value();
              case DENTAL -> known.dental().value();
            });
  }

  private enum Part {
    TOTAL,
    SKELETAL,
    DENTAL
  }
}
