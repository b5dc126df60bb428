package org.intercusp.analysis.film;

import static org.intercusp.analysis.film.Tracing.signed;
import static org.intercusp.analysis.film.Tracing.unsigned;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.hipparchus.analysis.differentiation.Gradient;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Landmark;

/**
 * How a measurement is taken from a tracing, as drawn.
 *
 * @param points landmarks needed beside the ends of the lines
 * @param lines lines whose ends must be two points
 */
record Formula(Set<Landmark> points, List<Line> lines, Function<Tracing, Gradient> drawn) {

  static Reckoned<Estimate> measure(Measurement measurement, Tracing tracing) {
    Formula formula = of(measurement);
    Optional<String> why =
        tracing
            .lacking(formula.points, formula.lines)
            .or(() -> contradiction(measurement, tracing));
    if (why.isPresent()) {
      return Reckoned.lacking(why.get());
    }
    Gradient drawn = formula.drawn.apply(tracing);
    return measurement.unit() == Unit.MILLIMETRE
        ? tracing.enlargement().flatMap(factor -> Estimate.of(drawn.divide(factor)))
        : Estimate.of(drawn);
  }

  private static Formula of(Measurement measurement) {
    return switch (measurement) {
      case SNA -> lines(t -> turned(t, Line.SN, Line.NA), Line.SN, Line.NA);
      case SNB -> lines(t -> turned(t, Line.SN, Line.NB), Line.SN, Line.NB);
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
          heights(
              Set.of(Landmark.N, Landmark.ME),
              t -> lower(t).multiply(100).divide(upper(t).add(lower(t))));
      case JARABAK_RATIO ->
          lines(
              t -> t.length(Line.S_GO).multiply(100).divide(t.length(Line.N_ME)),
              Line.S_GO,
              Line.N_ME);
      case CO_GN -> lines(t -> t.length(Line.CO_GN), Line.CO_GN);
      case CO_A -> lines(t -> t.length(Line.CO_A), Line.CO_A);
    };
  }

  private static Formula lines(Function<Tracing, Gradient> drawn, Line... lines) {
    return new Formula(Set.of(), List.of(lines), drawn);
  }

  private static Gradient turned(Tracing tracing, Line base, Line down) {
    return signed(tracing.direction(down).subtract(tracing.direction(base)).subtract(180));
  }

  private static Formula fallingAway(Line first, Line second) {
    return lines(t -> signed(t.direction(first).subtract(t.direction(second))), first, second);
  }

  private static Formula molarSide(Line from, int turned, Line to) {
    return lines(
        t -> unsigned(t.direction(to).subtract(t.direction(from)).subtract(turned)), from, to);
  }

  private static Formula heights(Set<Landmark> points, Function<Tracing, Gradient> drawn) {
    return new Formula(points, List.of(Line.MAXILLARY), drawn);
  }

  private static Gradient upper(Tracing tracing) {
    return tracing.above(Line.MAXILLARY, Landmark.N);
  }

  private static Gradient lower(Tracing tracing) {
    return tracing.above(Line.MAXILLARY, Landmark.ME).negate();
  }

  private static Optional<String> contradiction(Measurement measurement, Tracing tracing) {
    return measurement == Measurement.LAFH_PERCENT
            && (upper(tracing).getValue() <= 0 || lower(tracing).getValue() <= 0)
        ? Optional.of("N is not above, or Me not below, the maxillary plane")
        : Optional.empty();
  }
}
