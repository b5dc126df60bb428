package org.intercusp.analysis.film;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.intercusp.analysis.film.ReadFilms.FINE;
import static org.intercusp.analysis.film.ReadFilms.film;
import static org.intercusp.analysis.film.ReadFilms.second;
import static org.intercusp.analysis.film.ReadFilms.treated;
import static org.intercusp.analysis.film.ReadFilms.uncertainty;

import org.intercusp.finding.Figure;
import org.intercusp.measure.ReadingError;
import org.junit.jupiter.api.Test;

/** A figure of films that is within the error of its landmarks of a limit says so. */
class FilmBorderlineTest {

  @Test
  void aValueNearALimitOfTheUsualRangeIsBorderlineAndSaysSo() {
    // ANB 4.5 of 3 ± 2; U1-Mx 112 of 109 ± 6.
    Cephalometry film = Cephalometry.of(film(Face.classTwo()));
    double u = film.uncertainty(Measurement.ANB, ReadingError.LANDMARK).result().orElseThrow();
    ReadingError justEnough = new ReadingError(0.5 * 0.5001 / u);
    ReadingError tooLittle = new ReadingError(0.5 * 0.4999 / u);
    assertThat(film.borderline(Measurement.ANB, justEnough)).isTrue();
    assertThat(film.borderline(Measurement.ANB, tooLittle)).isFalse();
    assertThat(note(film, "anb", justEnough)).contains("borderline to the usual range");
    assertThat(note(film, "anb", tooLittle)).doesNotContain("borderline");
    assertThat(film.borderline(Measurement.WITS, new ReadingError(50))).isFalse();
  }

  @Test
  void theCorrectionOfAnbSaysWhenItsConditionIsBorderline() {
    // SN-Mx 9 of 8 ± 3: two degrees from its limit.
    Cephalometry film = Cephalometry.of(film(Face.classTwo()));
    double u = film.uncertainty(Measurement.SN_MX, ReadingError.LANDMARK).result().orElseThrow();
    assertThat(note(film, "anb-corrected", new ReadingError(0.5 * 2.001 / u)))
        .contains("borderline: SN-Mx");
    assertThat(note(film, "anb-corrected", ReadingError.LANDMARK)).doesNotContain("borderline");
  }

  @Test
  void aChangeWithinTheErrorOfBothFilmsIsBorderlineToNone() {
    FilmChange change = FilmChange.between(film(Face.classTwo()), second(treated()));
    double one = uncertainty(film(Face.classTwo()), Measurement.SNB);
    double other = uncertainty(second(treated()), Measurement.SNB);
    assertThat(change.uncertainty(Measurement.SNB, FINE).result().orElseThrow())
        .isCloseTo(Math.hypot(one, other), within(1e-12));
    assertThat(change.figures())
        .filteredOn(each -> each.name().equals("sna-change"))
        .allMatch(each -> each.note().endsWith("borderline to no change"))
        .hasSize(1);
    assertThat(change.figures())
        .filteredOn(each -> each.name().equals("snb-change"))
        .noneMatch(each -> each.note().contains("borderline"))
        .hasSize(1);
  }

  @Test
  void aLossIsAsSureAsAGain() {
    assertThat(FilmChange.between(second(treated()), film(Face.classTwo())).figures())
        .filteredOn(each -> each.name().equals("snb-change"))
        .allMatch(each -> each.value().shown().startsWith("-"))
        .noneMatch(each -> each.note().contains("borderline"))
        .hasSize(1);
  }

  @Test
  void aFilmSaysWhatErrorItsLandmarksAreTakenToHave() {
    Figure error = Cephalometry.of(film(Face.classTwo())).figures().get(0);
    assertThat(error.name()).isEqualTo("landmark-error");
    assertThat(error.value().shown()).isEqualTo("0.5");
    assertThat(error.source().shown()).isEqualTo("common practice, no source");
  }

  private static String note(Cephalometry film, String name, ReadingError error) {
    return film.figures(error).stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow()
        .note();
  }
}
