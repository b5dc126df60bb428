package org.intercusp.web.pages;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.film.FilmFigures;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Figure;
import org.intercusp.rules.Examination;
import org.intercusp.summary.drawing.BlockDrawing;
import org.intercusp.summary.drawing.BlockView;
import org.intercusp.summary.drawing.FilmTracing;
import org.intercusp.summary.drawing.FilmsSuperimposed;
import org.intercusp.summary.drawing.NextTrim;
import org.intercusp.summary.drawing.OverjetChart;
import org.intercusp.summary.drawing.StageLine;
import org.intercusp.summary.drawing.TeethChart;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Treatment;

/**
 * All drawings of a treatment for which the record has the data, by what they show.
 *
 * @param course stages and overjet over time
 * @param appliance the last bite, the blocks made to it and the teeth that carry them
 * @param earlier bites and appliances before the last
 */
public record Pictures(
    List<Picture> course, List<Picture> appliance, List<Picture> earlier, List<Picture> films) {

  /** A drawing under its title. */
  public record Picture(String title, String svg) {}

  static Pictures of(Treatment treatment, Examination examination) {
    List<Figure> figures = examination.figures();
    List<Picture> last = new ArrayList<>();
    List<Picture> earlier = new ArrayList<>();
    bites(treatment, examination, last, earlier);
    appliances(treatment, examination, last, earlier);
    return new Pictures(
        course(treatment, examination.on()), last, earlier, films(treatment, figures));
  }

  private static List<Picture> course(Treatment treatment, LocalDate on) {
    List<Picture> course = new ArrayList<>();
    StageLine.svg(treatment, on).ifPresent(svg -> course.add(new Picture("Stages", svg)));
    OverjetChart.svg(treatment, on)
        .ifPresent(svg -> course.add(new Picture("Overjet over time", svg)));
    return course;
  }

  private static void bites(
      Treatment treatment, Examination examination, List<Picture> last, List<Picture> earlier) {
    List<Bite> bites = treatment.bites();
    for (int i = bites.size() - 1; i >= 0; i--) {
      Bite bite = bites.get(i);
      Picture picture =
          new Picture(
              "Construction bite of " + bite.recordedOn(), BitePicture.of(bite, examination));
      (i == bites.size() - 1 ? last : earlier).add(picture);
    }
  }

  private static void appliances(
      Treatment treatment, Examination examination, List<Picture> last, List<Picture> earlier) {
    List<Appliance> all = treatment.appliances();
    for (int i = all.size() - 1; i >= 0; i--) {
      Appliance one = all.get(i);
      List<Picture> to = i == all.size() - 1 ? last : earlier;
      String title = Trade.title(one.type().code()) + " of " + one.orderedOn();
      BlockView.of(treatment, one, examination.figures())
          .map(view -> NextTrim.of(treatment, one, examination).map(view::trimmed).orElse(view))
          .ifPresent(view -> to.add(new Picture(title + ", blocks", BlockDrawing.svg(view))));
      List<Tooth> present =
          one.teethPresent() == null ? treatment.diagnosis().teethPresent() : one.teethPresent();
      to.add(new Picture(title + ", teeth and clasps", TeethChart.svg(present, one)));
    }
    if (all.isEmpty()) {
      last.add(
          new Picture(
              "Teeth present",
              TeethChart.svg(treatment.id(), treatment.diagnosis().teethPresent())));
    }
  }

  /** Tracings by date, then the last film on the first, of those that the figures compare. */
  private static List<Picture> films(Treatment treatment, List<Figure> figures) {
    List<Picture> pictures = new ArrayList<>();
    for (Film film : FilmFigures.firstTracings(treatment.films())) {
      FilmTracing.svg(film, figures)
          .ifPresent(svg -> pictures.add(new Picture("Film of " + film.takenOn(), svg)));
    }
    List<Film> compared = FilmFigures.comparable(treatment.films());
    if (compared.size() > 1) {
      FilmsSuperimposed.svg(compared.get(0), compared.get(compared.size() - 1))
          .ifPresent(svg -> pictures.add(new Picture("First and last film", svg)));
    }
    return pictures;
  }
}
