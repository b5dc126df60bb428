package org.intercusp.summary.drawing;

import java.util.List;
import org.intercusp.treatment.Landmark;

/** The lines of a tracing, each drawn where both of its landmarks were found. */
enum FilmLines {
  SN(Landmark.S, Landmark.N),
  NA(Landmark.N, Landmark.A),
  NB(Landmark.N, Landmark.B),
  MAXILLARY(Landmark.PNS, Landmark.ANS),
  MANDIBULAR(Landmark.GO, Landmark.ME),
  UPPER_INCISOR(Landmark.UIA, Landmark.UI),
  LOWER_INCISOR(Landmark.LIA, Landmark.LI),
  OCCLUSAL(Landmark.OPP, Landmark.OPA),
  RAMUS(Landmark.CO, Landmark.GO),
  CHIN(Landmark.POG, Landmark.ME),
  FACE(Landmark.B, Landmark.POG);

  private final Landmark from;
  private final Landmark to;

  FilmLines(Landmark from, Landmark to) {
    this.from = from;
    this.to = to;
  }

  Landmark from() {
    return from;
  }

  Landmark to() {
    return to;
  }

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
}
