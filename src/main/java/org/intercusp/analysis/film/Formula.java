package org.intercusp.analysis.film;

import static org.intercusp.analysis.film.Tracing.signed;
import static org.intercusp.analysis.film.Tracing.unsigned;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Landmark;

/**
 * How a measurement is taken from a tracing, as drawn.
 *
 * @param points landmarks needed beside the ends of the lines
 * @param lines lines whose ends must be two points
 */
record Formula(Set<Landmark> points, List<Line> lines, ToDoubleFunction<Tracing> drawn) {

  static Reckoned<BigDecimal> measure(Measurement measurement, Tracing tracing) {
    Formula formula = of(measurement);
    Optional<String> why =
        tracing
            .lacking(formula.points, formula.lines)
            .or(() -> contradiction(measurement, tracing));
    if (why.isPresent()) {
      return Reckoned.lacking(why.get());
    }
    double drawn = formula.drawn.applyAsDouble(tracing);
    Reckoned<Double> value =
        measurement.unit() == Unit.MILLIMETRE
            ? tracing.enlargement().map(factor -> drawn / factor)
            : Reckoned.known(drawn);
    return value.flatMap(
        result ->
            Double.isFinite(result)
                ? Reckoned.known(Tracing.decimal(result))
                : Reckoned.lacking("landmarks lie too far apart to be computed with"));
  }

  private static Formula of(Measurement measurement) {
    return switch (measurement) {
      case SNA ->
          lines(t -> signed(t.direction(Line.NA) - t.direction(Line.SN) - 180), Line.SN, Line.NA);
      case SNB ->
          lines(t -> signed(t.direction(Line.NB) - t.direction(Line.SN) - 180), Line.SN, Line.NB);
      case ANB -> fallingAway(Line.NA, Line.NB);
      case SN_MX -> fallingAway(Line.SN, Line.MAXILLARY);
      case SN_MP -> fallingAway(Line.SN, Line.MANDIBULAR);
      case MMPA -> fallingAway(Line.MAXILLARY, Line.MANDIBULAR);
      case U1_MX -> molarSide(Line.MAXILLARY, 180, Line.UPPER_INCISOR);
      case L1_MD -> molarSide(Line.LOWER_INCISOR, 180, Line.MANDIBULAR);
      case INTERINCISAL -> molarSide(Line.UPPER_INCISOR, 0, Line.LOWER_INCISOR);
      case WITS ->
          new Formula(
              Set.of(Landmark.A, Landmark.B),
              List.of(Line.OCCLUSAL),
              t -> t.along(t.direction(Line.OCCLUSAL), Landmark.B, Landmark.A));
      case UPPER_FACE_HEIGHT -> heights(Set.of(Landmark.N), Formula::upper);
      case LOWER_FACE_HEIGHT -> heights(Set.of(Landmark.ME), Formula::lower);
      case LAFH_PERCENT ->
          heights(Set.of(Landmark.N, Landmark.ME), t -> 100 * lower(t) / (upper(t) + lower(t)));
      case JARABAK_RATIO ->
          lines(t -> 100 * t.length(Line.S_GO) / t.length(Line.N_ME), Line.S_GO, Line.N_ME);
      case CO_GN -> lines(t -> t.length(Line.CO_GN), Line.CO_GN);
      case CO_A -> lines(t -> t.length(Line.CO_A), Line.CO_A);
    };
  }

  private static Formula lines(ToDoubleFunction<Tracing> drawn, Line... lines) {
    return new Formula(Set.of(), List.of(lines), drawn);
  }

  private static Formula fallingAway(Line first, Line second) {
    return lines(t -> signed(t.direction(first) - t.direction(second)), first, second);
  }

  private static Formula molarSide(Line from, int turned, Line to) {
    return lines(t -> unsigned(t.direction(to) - t.direction(from) - turned), from, to);
  }

  private static Formula heights(Set<Landmark> points, ToDoubleFunction<Tracing> drawn) {
    return new Formula(points, List.of(Line.MAXILLARY), drawn);
  }

  private static double upper(Tracing tracing) {
    return tracing.above(Line.MAXILLARY, Landmark.N);
  }

  private static double lower(Tracing tracing) {
    return -tracing.above(Line.MAXILLARY, Landmark.ME);
  }

  private static Optional<String> contradiction(Measurement measurement, Tracing tracing) {
    return measurement == Measurement.LAFH_PERCENT && (upper(tracing) <= 0 || lower(tracing) <= 0)
        ? Optional.of("N is not above, or Me not below, the maxillary plane")
        : Optional.empty();
  }
}
