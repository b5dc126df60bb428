package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.ReadingError;
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
  private final Map<Measurement, Reckoned<Estimate>> taken;

  private Cephalometry(Film film, Map<Measurement, Reckoned<Estimate>> taken) {
    this.film = film;
    this.taken = Collections.unmodifiableMap(taken);
  }

  public static Cephalometry of(Film film) {
    Tracing tracing = new Tracing(film);
    Map<Measurement, Reckoned<Estimate>> taken = new EnumMap<>(Measurement.class);
    for (Measurement measurement : Measurement.values()) {
      taken.put(measurement, Formula.measure(measurement, tracing));
    }
    return new Cephalometry(film, taken);
  }

  public Film film() {
    return film;
  }

  /** A value in the unit of its measurement, to a millionth. */
  public Reckoned<BigDecimal> value(Measurement measurement) {
    return estimate(measurement).map(Estimate::value);
  }

  /**
   * Standard uncertainty in the unit of the measurement, when each coordinate of each landmark was
   * found with such an error; the magnification is taken as exact.
   */
  public Reckoned<Double> uncertainty(Measurement measurement, ReadingError error) {
    return estimate(measurement).map(known -> known.uncertainty(error));
  }

  private Reckoned<Estimate> estimate(Measurement measurement) {
    Reckoned<Estimate> known = taken.get(measurement);
    if (known == null) {
      throw new IllegalStateException("every measurement is taken or absent with a reason");
    }
    return known;
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

  /** Standard uncertainty of the corrected ANB in degrees; ANB and SNA share S, N and A. */
  public Reckoned<Double> correctedAnbUncertainty(ReadingError error) {
    return estimate(Measurement.ANB)
        .flatMap(
            anb ->
                estimate(Measurement.SNA)
                    .map(sna -> anb.computed().subtract(sna.computed().multiply(0.5))))
        .map(corrected -> new Estimate(corrected).uncertainty(error));
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
    return figures(ReadingError.LANDMARK);
  }

  /** The figures when each coordinate has such an error; notes carry what comes of it. */
  public List<Figure> figures(ReadingError error) {
    FigureSheet sheet = new FigureSheet(film.id());
    sheet.number(
        "landmark-error",
        Reckoned.known(BigDecimal.valueOf(error.halfWidth())),
        1,
        Unit.MILLIMETRE,
        Context.of(Source.COMMON_PRACTICE)
            .noting(
                "half-width of each coordinate as drawn; the uncertainties of this film follow"
                    + " from it, its magnification taken as exact"));
    for (Measurement measurement : Measurement.values()) {
      sheet.number(
          measurement.code(),
          value(measurement),
          1,
          measurement.unit(),
          beside(measurement, error));
    }
    sheet.number(
        "anb-corrected",
        correctedAnb(),
        1,
        Unit.DEGREE,
        Context.of(CORRECTION).noting(correctionNote(error)));
    return sheet.figures();
  }

  private Context beside(Measurement measurement, ReadingError error) {
    String usual = measurement.norm().map(norm -> norm.shown(measurement.unit())).orElse(null);
    return Context.of(measurement.source()).usually(usual).noting(note(measurement, error));
  }

  private String note(Measurement measurement, ReadingError error) {
    boolean onGonion =
        switch (measurement) {
          case SN_MP, MMPA, L1_MD, JARABAK_RATIO -> true;
          default -> false;
        };
    String how = onGonion && film.gonion() == Gonion.ANATOMICAL ? "anatomical gonion" : jaw();
    return joined(
        uncertain(uncertainty(measurement, error), measurement.unit()),
        borderline(measurement, error) ? "borderline to the usual range" : null,
        how);
  }

  /** Whether a limit of the usual range lies within the uncertainty; false without a range. */
  public boolean borderline(Measurement measurement, ReadingError error) {
    Optional<Norm> norm = measurement.norm();
    return norm.isPresent() && borderline(norm.get(), measurement, error);
  }

  private boolean borderline(Norm norm, Measurement measurement, ReadingError error) {
    return estimate(measurement)
        .map(known -> norm.borderline(known.value(), known.uncertainty(error)))
        .result()
        .orElse(false);
  }

  private String correctionNote(ReadingError error) {
    return joined(
        uncertain(correctedAnbUncertainty(error), Unit.DEGREE),
        borderline(USUAL_SN_MX, Measurement.SN_MX, error)
            ? "borderline: SN-Mx is near a limit of 8 ± 3°, where the correction holds"
            : null,
        jaw());
  }

  private static @Nullable String uncertain(Reckoned<Double> uncertainty, Unit unit) {
    return uncertainty.map(u -> FigureSheet.uncertain(u, unit)).result().orElse(null);
  }

  private static String joined(@Nullable String... notes) {
    return Stream.of(notes).filter(Objects::nonNull).collect(Collectors.joining("; "));
  }

  private @Nullable String jaw() {
    return switch (film.jaw()) {
      case HABITUAL -> null;
      case RETRUDED -> "taken with the jaw retruded";
      case IN_BITE -> "taken in the construction bite";
    };
  }
}
