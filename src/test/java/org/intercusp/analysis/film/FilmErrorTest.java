package org.intercusp.analysis.film;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.intercusp.analysis.film.ReadFilms.FINE;
import static org.intercusp.analysis.film.ReadFilms.film;
import static org.intercusp.analysis.film.ReadFilms.second;
import static org.intercusp.analysis.film.ReadFilms.treated;
import static org.intercusp.analysis.film.ReadFilms.uncertainty;

import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * What the error of landmarks makes of the figures of films: compared with closed forms drawn from
 * the law of propagation (JCGM 100:2008, 5.1.2), and with the spread of films traced again and
 * again (propagation by simulation, JCGM 101:2008). The tolerance of the spread, 3 %, is more than
 * three times the standard error of a deviation of 5,000 evenly spread values.
 */
@Tag("steady")
class FilmErrorTest {

  private static final int TRACINGS = 5_000;

  private static final double U = FINE.standardUncertainty();

  @Test
  void anAngleBetweenTwoLinesOfTheirOwnLandmarks() {
    // Each end moves a line by u over its length; four ends, two lines.
    Film film = film(Face.classTwo());
    assertThat(uncertainty(film, Measurement.U1_MX))
        .isCloseTo(Math.toDegrees(U * Math.sqrt(2 / square(24) + 2 / square(52))), within(1e-9));
    assertThat(uncertainty(film, Measurement.MMPA))
        .isCloseTo(Math.toDegrees(U * Math.sqrt(2 / square(52) + 2 / square(68))), within(1e-9));
  }

  @Test
  void anAngleAtOnePoint() {
    // ANB at N with arms p and q: u^2 (1/p^2 + 1/q^2 + |p/p^2 - q/q^2|^2).
    double p = 55;
    double q = 95;
    double cosine = Math.cos(Math.toRadians(4.5));
    double atN = 1 / square(p) + 1 / square(q) - 2 * cosine / (p * q);
    assertThat(uncertainty(film(Face.classTwo()), Measurement.ANB))
        .isCloseTo(
            Math.toDegrees(U * Math.sqrt(1 / square(p) + 1 / square(q) + atN)), within(1e-9));
  }

  @Test
  void aLengthHasTheErrorOfItsTwoEndsInLifeSize() {
    Film film = Face.film("f", Face.classTwo(), "8");
    assertThat(uncertainty(film, Measurement.CO_A))
        .isCloseTo(U * Math.sqrt(2) / 1.08, within(1e-9));
    assertThat(uncertainty(film, Measurement.CO_GN))
        .isCloseTo(U * Math.sqrt(2) / 1.08, within(1e-9));
  }

  @Test
  void isTheSpreadOfTheSameFilmTracedAgainAndAgain() {
    Map<Measurement, DescriptiveStatistics> seen = new EnumMap<>(Measurement.class);
    SplittableRandom random = new SplittableRandom(20260203);
    for (int i = 0; i < TRACINGS; i++) {
      Cephalometry film = Cephalometry.of(film(traced(Face.classTwo(), random)));
      for (Measurement each : Measurement.values()) {
        seen.computeIfAbsent(each, first -> new DescriptiveStatistics())
            .addValue(film.value(each).result().orElseThrow().doubleValue());
      }
    }
    for (Measurement each : Measurement.values()) {
      double stated = uncertainty(film(Face.classTwo()), each);
      assertThat(seen.get(each).getStandardDeviation())
          .as(each.code())
          .isCloseTo(stated, within(0.03 * stated));
    }
  }

  @Test
  void correctedAnbCountsTheErrorThatAnbAndSnaShare() {
    Cephalometry own = Cephalometry.of(film(Face.classTwo()));
    double stated = own.correctedAnbUncertainty(FINE).result().orElseThrow();
    double seen =
        spread(
            random ->
                Cephalometry.of(film(traced(Face.classTwo(), random)))
                    .correctedAnb()
                    .result()
                    .orElseThrow()
                    .doubleValue());
    assertThat(seen).isCloseTo(stated, within(0.03 * stated));
    double independent =
        Math.hypot(
            uncertainty(own.film(), Measurement.ANB),
            0.5 * uncertainty(own.film(), Measurement.SNA));
    assertThat(Math.abs(independent - stated)).isGreaterThan(0.1 * stated);
  }

  @Test
  void correctionsAreTheSpreadOfBothFilmsTracedAgain() {
    Map<Landmark, Point> later = Face.moved(treated(), 6, 1.02, 5, -3);
    SagittalAnalysis own = SagittalAnalysis.between(film(Face.classTwo()), second(later));
    double overjet = own.overjetUncertainty(FINE).result().orElseThrow();
    double molar = own.molarUncertainty(FINE).result().orElseThrow();
    assertThat(spread(random -> total(again(later, random).overjet())))
        .isCloseTo(overjet, within(0.03 * overjet));
    assertThat(spread(random -> total(again(later, random).molar())))
        .isCloseTo(molar, within(0.03 * molar));
  }

  @Test
  void partsOfACorrectionAreToldWithTheirSpread() {
    Map<Landmark, Point> later = Face.moved(treated(), 6, 1.02, 5, -3);
    SagittalAnalysis own = SagittalAnalysis.between(film(Face.classTwo()), second(later));
    for (CorrectionPart part :
        new CorrectionPart[] {CorrectionPart.SKELETAL, CorrectionPart.DENTAL}) {
      double seen =
          spread(
              random ->
                  again(later, random).overjet().result().orElseThrow().part(part).asDouble());
      assertThat(told(own, "overjet-correction-" + part.code()))
          .isCloseTo(seen, within(0.03 * seen + 0.005));
    }
    double percent =
        spread(
            random ->
                again(later, random)
                    .overjet()
                    .result()
                    .orElseThrow()
                    .skeletalPercent()
                    .result()
                    .orElseThrow()
                    .doubleValue());
    assertThat(told(own, "overjet-correction-skeletal-percent"))
        .isCloseTo(percent, within(0.03 * percent + 0.005));
  }

  @Test
  void aLargerFaceIsMeasuredMoreExactlyInAnglesAndAlikeInLengths() {
    SplittableRandom random = new SplittableRandom(5);
    for (int i = 0; i < 200; i++) {
      double factor = random.nextDouble(0.5, 3);
      Film own = film(Face.classTwo());
      Film grown = film(Face.moved(Face.classTwo(), random.nextDouble(-180, 180), factor, 40, -9));
      for (Measurement each : Measurement.values()) {
        double shrunk = each.unit() == Unit.MILLIMETRE ? 1 : factor;
        assertThat(uncertainty(grown, each))
            .as(each.code())
            .isCloseTo(uncertainty(own, each) / shrunk, within(1e-6));
      }
    }
  }

  @Test
  void isInProportionToTheErrorAndNoneWithoutOne() {
    Cephalometry film = Cephalometry.of(film(Face.classTwo()));
    for (Measurement each : Measurement.values()) {
      double once = film.uncertainty(each, FINE).result().orElseThrow();
      assertThat(film.uncertainty(each, new ReadingError(0.1)).result().orElseThrow())
          .isCloseTo(2 * once, within(1e-12));
      assertThat(film.uncertainty(each, new ReadingError(0)).result()).contains(0.0);
    }
  }

  private static double told(SagittalAnalysis own, String name) {
    String note =
        own.figures(FINE).stream()
            .filter(each -> each.name().equals(name))
            .findFirst()
            .orElseThrow()
            .note();
    return Double.parseDouble(note.replaceFirst(".*standard uncertainty ([0-9.]+) .*", "$1"));
  }

  private static double total(Reckoned<Correction> correction) {
    return correction.result().orElseThrow().total().asDouble();
  }

  private static SagittalAnalysis again(Map<Landmark, Point> later, SplittableRandom random) {
    return SagittalAnalysis.between(
        film(traced(Face.classTwo(), random)), second(traced(later, random)));
  }

  private static double spread(ToDoubleFunction<SplittableRandom> result) {
    SplittableRandom random = new SplittableRandom(20260203);
    DescriptiveStatistics statistics = new DescriptiveStatistics();
    for (int i = 0; i < TRACINGS; i++) {
      statistics.addValue(result.applyAsDouble(random));
    }
    return statistics.getStandardDeviation();
  }

  private static Map<Landmark, Point> traced(Map<Landmark, Point> truth, SplittableRandom random) {
    Map<Landmark, Point> traced = new EnumMap<>(Landmark.class);
    truth.forEach(
        (landmark, at) ->
            traced.put(
                landmark,
                Face.point(
                    at.x().value().doubleValue() + random.nextDouble(-0.05, 0.05),
                    at.y().value().doubleValue() + random.nextDouble(-0.05, 0.05))));
    return traced;
  }

  private static double square(double number) {
    return number * number;
  }
}
