package org.intercusp.analysis.film;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.intercusp.finding.Figure;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.JawPosition;

/** The figures of a treatment's films: each film, then the change from the first to the last. */
public final class FilmFigures {

  private FilmFigures() {}

  /**
   * All figures in order of date; a second tracing of a film ({@code repeatOf}) has figures of its
   * own and no part in the change.
   */
  public static List<Figure> figures(List<Film> films) {
    List<Figure> figures = new ArrayList<>();
    films.stream()
        .sorted(Comparator.comparing(Film::takenOn))
        .forEach(film -> figures.addAll(Cephalometry.of(film).figures()));
    List<Film> comparable = comparable(films);
    if (comparable.size() > 1) {
      Film first = comparable.get(0);
      Film last = comparable.get(comparable.size() - 1);
      figures.addAll(FilmChange.between(first, last).figures());
      figures.addAll(SagittalAnalysis.between(first, last).figures());
    }
    return List.copyOf(figures);
  }

  /** Every film once, by its first tracing, in order of date. */
  public static List<Film> firstTracings(List<Film> films) {
    return films.stream()
        .filter(film -> film.repeatOf() == null)
        .sorted(Comparator.comparing(Film::takenOn))
        .toList();
  }

  /**
   * What may be compared, in order of date: films in the habitual position, or all films when fewer
   * than two are.
   */
  public static List<Film> comparable(List<Film> films) {
    List<Film> once = firstTracings(films);
    List<Film> habitual = once.stream().filter(film -> film.jaw() == JawPosition.HABITUAL).toList();
    return habitual.size() > 1 ? habitual : once;
  }
}
