package org.intercusp.analysis.film;

import java.util.Map;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;

/** Films before and after treatment, and an error of reading them. */
final class ReadFilms {

  /** Small, so that the bend of the formulas plays no part in a comparison. */
  static final ReadingError FINE = new ReadingError(0.05);

  private ReadFilms() {}

  static double uncertainty(Film film, Measurement measurement) {
    return Cephalometry.of(film).uncertainty(measurement, FINE).result().orElseThrow();
  }

  /** The lower jaw with its teeth 4 mm further forward, its incisors 2 mm more. */
  static Map<Landmark, Point> treated() {
    Map<Landmark, Point> face = Face.classTwo();
    for (Landmark lower :
        new Landmark[] {
          Landmark.B, Landmark.POG, Landmark.GN, Landmark.ME, Landmark.L6, Landmark.LIA
        }) {
      forward(face, lower, 4);
    }
    forward(face, Landmark.LI, 6);
    return face;
  }

  private static void forward(Map<Landmark, Point> face, Landmark landmark, double by) {
    Point at = face.get(landmark);
    face.put(landmark, Face.point(at.x().value().doubleValue() + by, at.y().value().doubleValue()));
  }

  static Film film(Map<Landmark, Point> landmarks) {
    return Face.film("first", landmarks, "0");
  }

  static Film second(Map<Landmark, Point> landmarks) {
    return Face.film("second", landmarks, "2");
  }
}
