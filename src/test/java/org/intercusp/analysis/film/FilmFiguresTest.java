package org.intercusp.analysis.film;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.intercusp.finding.Figure;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Gonion;
import org.intercusp.treatment.JawPosition;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What stands beside the figures of films, and which films are compared. */
class FilmFiguresTest {

  private static final LocalDate DAY = LocalDate.of(2026, 1, 12);

  /** Means and deviations of the Eastman norms, from memory. */
  @ParameterizedTest
  @CsvSource({"sna, 81 ± 3°", "anb, 3 ± 2°", "interincisal, 135 ± 10°", "lafh-percent, 55 ± 2 %"})
  void theUsualRangeStandsBesideAMeasurement(String name, String usual) {
    assertThat(figure(taken(0, JawPosition.HABITUAL, Gonion.CONSTRUCTED), name).usual())
        .isEqualTo(usual);
  }

  @ParameterizedTest
  @CsvSource({"sn-mp, true", "mmpa, true", "l1-md, true", "sna, false", "sn-mx, false"})
  void gonionIsToldWhereTheMandibularPlaneIsUsed(String name, boolean told) {
    String anatomical = "anatomical gonion";
    assertThat(note(JawPosition.HABITUAL, Gonion.ANATOMICAL, name).contains(anatomical))
        .isEqualTo(told);
    assertThat(note(JawPosition.HABITUAL, Gonion.CONSTRUCTED, name)).doesNotContain(anatomical);
  }

  @Test
  void theJawIsToldWhereItWasHeldOtherwise() {
    assertThat(note(JawPosition.HABITUAL, Gonion.CONSTRUCTED, "snb"))
        .startsWith("standard uncertainty ")
        .doesNotContain("taken");
    assertThat(note(JawPosition.RETRUDED, Gonion.CONSTRUCTED, "snb"))
        .endsWith("taken with the jaw retruded");
    assertThat(note(JawPosition.IN_BITE, Gonion.CONSTRUCTED, "snb"))
        .endsWith("taken in the construction bite");
  }

  /** A film in the bite before and one after say nothing of the change. */
  @Test
  void habitualFilmsAreComparedWhateverOthersStandBesideThem() {
    Film before = taken(0, JawPosition.IN_BITE, Gonion.CONSTRUCTED);
    Film first = taken(1, JawPosition.HABITUAL, Gonion.CONSTRUCTED);
    Film last = taken(12, JawPosition.HABITUAL, Gonion.CONSTRUCTED);
    Film after = taken(13, JawPosition.RETRUDED, Gonion.CONSTRUCTED);
    List<Film> films = List.of(after, last, first, before);
    assertThat(FilmFigures.comparable(films)).containsExactly(first, last);
    assertThat(FilmFigures.comparable(List.of(after, first))).containsExactly(first, after);
    assertThat(FilmFigures.figures(films))
        .filteredOn(figure -> figure.name().equals("sna"))
        .extracting(Figure::subject)
        .containsExactly("F0", "F1", "F12", "F13");
  }

  /** N on the maxillary plane leaves nothing of the upper face to compare with. */
  @Test
  void aFaceWithoutAnUpperHeightHasNoShare() {
    Map<Landmark, Point> face = Face.classTwo();
    face.put(Landmark.N, face.get(Landmark.ANS));
    assertThat(Cephalometry.of(Face.film("f", face, "0")).value(Measurement.LAFH_PERCENT).reason())
        .contains("maxillary plane");
  }

  private static String note(JawPosition jaw, Gonion gonion, String name) {
    return figure(taken(0, jaw, gonion), name).note();
  }

  private static Figure figure(Film film, String name) {
    return Cephalometry.of(film).figures().stream()
        .filter(figure -> figure.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static Film taken(int months, JawPosition jaw, Gonion gonion) {
    return new Film(
        "F" + months, DAY.plusMonths(months), jaw, null, Face.classTwo(), gonion, null, null, null);
  }
}
