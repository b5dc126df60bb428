package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Gonion;
import org.jspecify.annotations.Nullable;

/**
 * All measurements of one film: degrees, millimetres of life size, per cent. A measurement whose
 * landmarks are missing, lie on one point or contradict each other is absent and says why.
 */
public final class Cephalometry {

  /** Limits of the ANB correction: Eur J Orthod 2012;34:719. */
  public static final Source CORRECTION = Source.published("Eur J Orthod 2012;34:719");

  private static final BigDecimal USUAL_SNA = BigDecimal.valueOf(81);
  private static final BigDecimal HALF = new BigDecimal("0.5");
  private static final Norm USUAL_SN_MX = Norm.of(8, 3);

  private final Film film;
  private final Map<Measurement, Reckoned<BigDecimal>> values;

  private Cephalometry(Film film, Map<Measurement, Reckoned<BigDecimal>> values) {
    this.film = film;
    this.values = Collections.unmodifiableMap(values);
  }

  public static Cephalometry of(Film film) {
    Tracing tracing = new Tracing(film);
    Map<Measurement, Reckoned<BigDecimal>> values = new EnumMap<>(Measurement.class);
    for (Measurement measurement : Measurement.values()) {
      values.put(measurement, Formula.measure(measurement, tracing));
    }
    return new Cephalometry(film, values);
  }

  public Film film() {
    return film;
  }

  /** A value in the unit of its measurement, to a millionth. */
  public Reckoned<BigDecimal> value(Measurement measurement) {
    Reckoned<BigDecimal> value = values.get(measurement);
    if (value == null) {
      throw new IllegalStateException("every measurement is taken or absent with a reason");
    }
    return value;
  }

  /**
   * ANB corrected for the position of N: ANB + 0.5 (81 - SNA), in degrees, only while SN-Mx is
   * within 8 ± 3.
   */
  public Reckoned<BigDecimal> correctedAnb() {
    return value(Measurement.SN_MX)
        .flatMap(
            cant ->
                USUAL_SN_MX.covers(cant)
                    ? value(Measurement.ANB)
                    : Reckoned.lacking(
                        "SN-Mx is outside 8 ± 3°, where the correction does not hold"))
        .flatMap(
            anb ->
                value(Measurement.SNA).map(sna -> anb.add(USUAL_SNA.subtract(sna).multiply(HALF))));
  }

  /** U1-Mx + L1-Md + interincisal + MMPA: 360 degrees for any face, whole turns off for none. */
  public Reckoned<BigDecimal> closure() {
    Reckoned<BigDecimal> sum = value(Measurement.MMPA);
    for (Measurement part :
        List.of(Measurement.U1_MX, Measurement.L1_MD, Measurement.INTERINCISAL)) {
      sum = sum.flatMap(so -> value(part).map(so::add));
    }
    return sum;
  }

  /** The figures of the film, absent ones with their reason. */
  public List<Figure> figures() {
    FigureSheet sheet = new FigureSheet(film.id());
    for (Measurement measurement : Measurement.values()) {
      sheet.number(
          measurement.code(), value(measurement), 1, measurement.unit(), beside(measurement));
    }
    sheet.number(
        "anb-corrected", correctedAnb(), 1, Unit.DEGREE, Context.of(CORRECTION).noting(jaw()));
    return sheet.figures();
  }

  private Context beside(Measurement measurement) {
    String usual = measurement.norm().map(norm -> norm.shown(measurement.unit())).orElse(null);
    return Context.of(measurement.source()).usually(usual).noting(note(measurement));
  }

  private @Nullable String note(Measurement measurement) {
    boolean onGonion =
        switch (measurement) {
          case SN_MP, MMPA, L1_MD, JARABAK_RATIO -> true;
          default -> false;
        };
    return onGonion && film.gonion() == Gonion.ANATOMICAL ? "anatomical gonion" : jaw();
  }

  private @Nullable String jaw() {
    return switch (film.jaw()) {
      case HABITUAL -> null;
      case RETRUDED -> "taken with the jaw retruded";
      case IN_BITE -> "taken in the construction bite";
    };
  }
}
