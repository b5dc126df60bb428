package org.intercusp.summary.drawing;

import java.util.List;
import org.intercusp.analysis.film.Line;
import org.intercusp.treatment.Landmark;

/** What of a tracing is drawn, each line where both of its landmarks were found. */
final class FilmLines {

  static final List<Line> DRAWN =
      List.of(
          Line.SN,
          Line.NA,
          Line.NB,
          Line.MAXILLARY,
          Line.MANDIBULAR,
          Line.UPPER_INCISOR,
          Line.LOWER_INCISOR,
          Line.OCCLUSAL,
          Line.RAMUS,
          Line.CHIN,
          Line.FACE);

  /** Landmarks that are named on the drawing. */
  static final List<Landmark> NAMED =
      List.of(
          Landmark.S,
          Landmark.N,
          Landmark.A,
          Landmark.B,
          Landmark.POG,
          Landmark.ME,
          Landmark.GO,
          Landmark.CO,
          Landmark.ANS,
          Landmark.PNS);

  private FilmLines() {}
}
