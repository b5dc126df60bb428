package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Film;

/**
 * What changed from an earlier film to a later one: later less earlier, in the unit of each
 * measurement; absent where either film lacks it.
 */
public final class FilmChange {

  private final Cephalometry earlier;
  private final Cephalometry later;
  private final Map<Measurement, Reckoned<BigDecimal>> changes;

  private FilmChange(
      Cephalometry earlier, Cephalometry later, Map<Measurement, Reckoned<BigDecimal>> changes) {
    this.earlier = earlier;
    this.later = later;
    this.changes = Collections.unmodifiableMap(changes);
  }

  /** The change from the first film named to the second. */
  public static FilmChange between(Film from, Film to) {
    Cephalometry earlier = Cephalometry.of(from);
    Cephalometry later = Cephalometry.of(to);
    Map<Measurement, Reckoned<BigDecimal>> changes = new EnumMap<>(Measurement.class);
    for (Measurement measurement : Measurement.values()) {
      changes.put(measurement, change(measurement, earlier, later));
    }
    return new FilmChange(earlier, later, changes);
  }

  private static Reckoned<BigDecimal> change(
      Measurement measurement, Cephalometry earlier, Cephalometry later) {
    Reckoned<BigDecimal> before = named(measurement, earlier);
    Reckoned<BigDecimal> after = named(measurement, later);
    return before.flatMap(b -> after.map(a -> a.subtract(b)));
  }

  private static Reckoned<BigDecimal> named(Measurement measurement, Cephalometry film) {
    Reckoned<BigDecimal> value = film.value(measurement);
    return value.result().isPresent()
        ? value
        : Reckoned.lacking("film " + film.film().id() + ": " + value.reason());
  }

  /** The change of one measurement in its unit. */
  public Reckoned<BigDecimal> of(Measurement measurement) {
    Reckoned<BigDecimal> change = changes.get(measurement);
    if (change == null) {
      throw new IllegalStateException("every change is computed or absent with a reason");
    }
    return change;
  }

  /** Standard uncertainty of a change; the landmarks of the two films are found independently. */
  public Reckoned<Double> uncertainty(Measurement measurement, ReadingError error) {
    return earlier
        .uncertainty(measurement, error)
        .flatMap(before -> later.uncertainty(measurement, error).map(u -> Math.hypot(before, u)));
  }

  /** Figures named after the measurements with {@code -change}, subject the later film. */
  public List<Figure> figures() {
    return figures(ReadingError.LANDMARK);
  }

  /** Figures when each coordinate has such an error; notes carry what comes of it. */
  public List<Figure> figures(ReadingError error) {
    FigureSheet sheet = new FigureSheet(later.film().id());
    for (Measurement measurement : Measurement.values()) {
      Context context =
          Context.of(Source.COMMON_PRACTICE).noting(note() + doubt(measurement, error));
      sheet.number(measurement.code() + "-change", of(measurement), 1, measurement.unit(), context);
    }
    return sheet.figures();
  }

  private String doubt(Measurement measurement, ReadingError error) {
    return of(measurement)
        .flatMap(change -> uncertainty(measurement, error).map(u -> doubt(change, u, measurement)))
        .result()
        .orElse("");
  }

  private static String doubt(BigDecimal change, double u, Measurement measurement) {
    boolean none = change.abs().doubleValue() <= u;
    return "; "
        + FigureSheet.uncertain(u, measurement.unit())
        + (none ? "; borderline to no change" : "");
  }

  private String note() {
    List<String> notes = new ArrayList<>();
    notes.add("since film " + earlier.film().id());
    if (earlier.film().jaw() != later.film().jaw()) {
      notes.add(
          "the jaw was held differently: "
              + earlier.film().jaw().code()
              + ", then "
              + later.film().jaw().code());
    }
    if (earlier.film().gonion() != later.film().gonion()) {
      notes.add("gonion was found differently");
    }
    return String.join("; ", notes);
  }
}
