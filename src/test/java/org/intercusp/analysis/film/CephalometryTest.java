package org.intercusp.analysis.film;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.intercusp.finding.Figure;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Gonion;
import org.intercusp.treatment.JawPosition;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Angles, lengths and ratios of drawn faces, signs both ways, and what is withheld. */
class CephalometryTest {

  private static final BigDecimal NOISE = new BigDecimal("0.000002");

  @ParameterizedTest
  @CsvSource({
    "SNA, 80.5",
    "SNB, 76",
    "ANB, 4.5",
    "SN_MX, 9",
    "SN_MP, 34",
    "MMPA, 25",
    "U1_MX, 112",
    "L1_MD, 95.5",
    "INTERINCISAL, 127.5"
  })
  void givesBackTheAnglesAFaceWasDrawnWith(Measurement measurement, BigDecimal drawn) {
    assertThat(value(Face.classTwo(), measurement)).isCloseTo(drawn, within(NOISE));
  }

  @Test
  void anglesStayWhenTheFaceTurnsMovesAndGrows() {
    Map<Landmark, Point> moved = Face.moved(Face.classTwo(), 13, 1.7, 21, -8);
    for (Measurement measurement : Measurement.values()) {
      if (!measurement.unit().ucum().equals("mm")) {
        assertThat(value(moved, measurement))
            .as(measurement.code())
            .isCloseTo(value(Face.classTwo(), measurement), within(NOISE));
      }
    }
  }

  @Test
  void lengthsGrowWithTheFaceAndMagnificationIsDividedOut() {
    Map<Landmark, Point> grown = Face.moved(Face.classTwo(), 13, 1.08, 4, 4);
    for (Measurement measurement : Measurement.values()) {
      BigDecimal life = value(Face.film("a", Face.classTwo(), "0"), measurement);
      assertThat(value(Face.film("b", grown, "8"), measurement))
          .as(measurement.code())
          .isCloseTo(life, within(NOISE));
      BigDecimal drawn = value(Face.film("c", grown, "0"), measurement);
      if (measurement.unit().ucum().equals("mm")) {
        assertThat(drawn.doubleValue()).isCloseTo(1.08 * life.doubleValue(), within(1e-5));
      } else {
        assertThat(drawn).isCloseTo(life, within(NOISE));
      }
    }
  }

  @Test
  void lengthsAreWithheldWithoutMagnificationAndAnglesAreNot() {
    Film film = Face.film("f", Face.classTwo(), null);
    for (Figure figure : Cephalometry.of(film).figures()) {
      if (figure.name().equals("landmark-error")) {
        continue;
      }
      if (figure.unit() != null && figure.unit().ucum().equals("mm")) {
        assertThat(figure.value()).as(figure.name()).isNull();
        assertThat(figure.note()).contains("magnification");
      } else {
        assertThat(figure.value()).as(figure.name()).isNotNull();
      }
    }
  }

  @Test
  void lengthsAndRatiosOfAFaceWithRightAngles() {
    Map<Landmark, Point> face = rightAngled();
    assertThat(value(face, Measurement.UPPER_FACE_HEIGHT)).isEqualByComparingTo("45");
    assertThat(value(face, Measurement.LOWER_FACE_HEIGHT)).isEqualByComparingTo("55");
    assertThat(value(face, Measurement.LAFH_PERCENT)).isEqualByComparingTo("55");
    assertThat(value(face, Measurement.JARABAK_RATIO)).isEqualByComparingTo("65");
    assertThat(value(face, Measurement.CO_GN)).isEqualByComparingTo("100");
    assertThat(value(face, Measurement.CO_A)).isEqualByComparingTo("75");
    assertThat(value(face, Measurement.WITS)).isEqualByComparingTo("5");
    assertThat(value(face, Measurement.SN_MX)).isEqualByComparingTo("0");
  }

  @Test
  void anbAndWitsAreNegativeWhenTheLowerJawIsInFront() {
    Map<Landmark, Point> face = rightAngled();
    face.put(Landmark.B, Face.point(63, -80));
    assertThat(value(face, Measurement.WITS)).isEqualByComparingTo("-3");
    assertThat(value(face, Measurement.ANB).signum()).isNegative();
    assertThat(value(face, Measurement.SNA)).isLessThan(value(face, Measurement.SNB));
  }

  @Test
  void planesAreNegativeWhenTheyFallAwayBackward() {
    Map<Landmark, Point> face = rightAngled();
    face.put(Landmark.ANS, Face.point(60, -35));
    assertThat(value(face, Measurement.SN_MX).signum()).isNegative();
    face.put(Landmark.ANS, Face.point(60, -55));
    assertThat(value(face, Measurement.SN_MX).signum()).isPositive();
  }

  @ParameterizedTest
  @EnumSource(Landmark.class)
  void aMissingLandmarkIsNamedAndTheRestIsMeasured(Landmark missing) {
    Map<Landmark, Point> face = Face.classTwo();
    face.remove(missing);
    List<Figure> figures = Cephalometry.of(Face.film("f", face, "8")).figures();
    boolean part = missing != Landmark.POG && missing.ordinal() < Landmark.U6.ordinal();
    assertThat(figures.stream().anyMatch(figure -> figure.value() == null)).isEqualTo(part);
    assertThat(figures)
        .filteredOn(figure -> figure.value() == null)
        .allMatch(figure -> figure.note().equals("landmark missing: " + missing.code()));
    assertThat(figures).anyMatch(figure -> figure.value() != null);
  }

  @Test
  void landmarksOnOnePointAreAReason() {
    Map<Landmark, Point> face = Face.classTwo();
    face.put(Landmark.N, face.get(Landmark.S));
    assertThat(Cephalometry.of(Face.film("f", face, "8")).value(Measurement.SNA).reason())
        .isEqualTo("S and N lie on one point");
  }

  @Test
  void aFaceUpsideDownHasNoShareOfFaceHeight() {
    Map<Landmark, Point> face = rightAngled();
    face.put(Landmark.ME, Face.point(50, 60));
    assertThat(Cephalometry.of(Face.film("f", face, "0")).value(Measurement.LAFH_PERCENT).reason())
        .contains("maxillary plane");
  }

  @Test
  void aMagnificationThatLeavesNothingIsAReason() {
    assertThat(
            Cephalometry.of(Face.film("f", Face.classTwo(), "-100"))
                .value(Measurement.CO_A)
                .reason())
        .contains("-100");
  }

  @Test
  void theFourAnglesOfTheIncisorsCloseForAnyFace() {
    assertThat(Cephalometry.of(Face.film("f", Face.classTwo(), null)).closure().result().get())
        .isCloseTo(BigDecimal.valueOf(360), within(NOISE));
    SplittableRandom random = new SplittableRandom(20260112);
    for (int i = 0; i < 2000; i++) {
      Cephalometry measured = Cephalometry.of(Face.film("f", anyFace(random), null));
      BigDecimal closure = measured.closure().result().get();
      BigDecimal rest = closure.remainder(BigDecimal.valueOf(360)).abs();
      assertThat(rest.min(BigDecimal.valueOf(360).subtract(rest)))
          .isLessThan(new BigDecimal("0.000005"));
    }
  }

  @Test
  void nothingCrashesOnAnyFilmAndEveryAbsentFigureSaysWhy() {
    SplittableRandom random = new SplittableRandom(7);
    for (int i = 0; i < 3000; i++) {
      List<Film> films = List.of(anyFilm("a", random), anyFilm("b", random), anyFilm("c", random));
      for (Figure figure : FilmFigures.figures(films)) {
        assertThat(figure.value() != null || !figure.note().isBlank()).isTrue();
      }
    }
  }

  @Test
  void changeIsLaterLessEarlierAndNamesTheFilmThatLacks() {
    Map<Landmark, Point> later = Face.classTwo();
    later.put(
        Landmark.LI,
        Face.point(
            later.get(Landmark.LI).x().value().doubleValue() + 2,
            later.get(Landmark.LI).y().value().doubleValue()));
    later.remove(Landmark.CO);
    FilmChange change =
        FilmChange.between(
            Face.film("first", Face.classTwo(), "8"), Face.film("second", later, "8"));
    assertThat(change.of(Measurement.L1_MD).result().get().doubleValue()).isBetween(3.0, 7.0);
    assertThat(change.of(Measurement.SNA).result().get()).isEqualByComparingTo("0");
    assertThat(change.of(Measurement.CO_A).reason()).isEqualTo("film second: landmark missing: Co");
  }

  @Test
  void figuresCompareHabitualFilmsAndLeaveSecondTracingsOut() {
    LocalDate day = LocalDate.of(2026, 1, 12);
    Film first = taken("first", day, JawPosition.HABITUAL, null);
    Film bite = taken("bite", day.plusMonths(3), JawPosition.IN_BITE, null);
    Film last = taken("last", day.plusMonths(12), JawPosition.HABITUAL, null);
    Film again = taken("again", day.plusMonths(13), JawPosition.HABITUAL, "last");
    assertThat(FilmFigures.figures(List.of(again, last, bite, first)))
        .filteredOn(figure -> figure.name().equals("snb-change"))
        .singleElement()
        .matches(figure -> figure.subject().equals("last"))
        .matches(figure -> figure.note().startsWith("since film first; standard uncertainty"));
    assertThat(FilmFigures.figures(List.of(bite, last)))
        .filteredOn(figure -> figure.name().equals("snb-change"))
        .singleElement()
        .matches(figure -> figure.note().contains("in-bite, then habitual"));
    assertThat(FilmFigures.figures(List.of())).isEmpty();
    assertThat(FilmFigures.figures(List.of(first)))
        .noneMatch(figure -> figure.name().endsWith("-change"));
  }

  private static Film taken(String id, LocalDate on, JawPosition jaw, String repeatOf) {
    return new Film(id, on, jaw, null, Face.classTwo(), Gonion.CONSTRUCTED, null, repeatOf, null);
  }

  private static Map<Landmark, Point> rightAngled() {
    Map<Landmark, Point> face = new EnumMap<>(Landmark.class);
    face.put(Landmark.S, Face.point(0, 0));
    face.put(Landmark.N, Face.point(60, 0));
    face.put(Landmark.ANS, Face.point(62, -45));
    face.put(Landmark.PNS, Face.point(10, -45));
    face.put(Landmark.A, Face.point(60, -50));
    face.put(Landmark.B, Face.point(55, -80));
    face.put(Landmark.ME, Face.point(60, -100));
    face.put(Landmark.GO, Face.point(0, -65));
    face.put(Landmark.GN, Face.point(75, -90));
    face.put(Landmark.CO, Face.point(15, -10));
    face.put(Landmark.A, Face.point(60, -70));
    face.put(Landmark.OPA, Face.point(58, -75));
    face.put(Landmark.OPP, Face.point(20, -75));
    return face;
  }

  private static Map<Landmark, Point> anyFace(SplittableRandom random) {
    Map<Landmark, Point> face = new EnumMap<>(Landmark.class);
    for (Landmark landmark : Landmark.values()) {
      face.put(landmark, Face.point(random.nextDouble(-400, 400), random.nextDouble(-400, 400)));
    }
    return face;
  }

  private static Film anyFilm(String id, SplittableRandom random) {
    Map<Landmark, Point> face = anyFace(random);
    List<Landmark> all = new ArrayList<>(List.of(Landmark.values()));
    for (int i = random.nextInt(8); i > 0; i--) {
      Landmark one = all.get(random.nextInt(all.size()));
      Landmark other = all.get(random.nextInt(all.size()));
      if (random.nextBoolean()) {
        face.remove(one);
      } else if (face.containsKey(other)) {
        face.put(one, face.get(other));
      }
    }
    String[] magnifications = {null, "0", "8", "-100", "-250", "12.5"};
    Film film = Face.film(id, face, magnifications[random.nextInt(magnifications.length)]);
    return film;
  }

  private static BigDecimal value(Map<Landmark, Point> face, Measurement measurement) {
    return value(Face.film("f", face, "0"), measurement);
  }

  private static BigDecimal value(Film film, Measurement measurement) {
    return Cephalometry.of(film).value(measurement).result().orElseThrow();
  }
}
