package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Length;
import org.intercusp.treatment.BothArches;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Gonion;
import org.intercusp.treatment.JawPosition;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.ModelSource;
import org.intercusp.treatment.Point;
import org.intercusp.treatment.StudyModel;
import org.jspecify.annotations.Nullable;

/** Films and study models of one invented treatment. */
final class Imaging {

  /**
   * Mesiodistal widths and their spread, central incisor to first molar: common practice, no
   * source.
   */
  private static final double[] UPPER = {8.6, 6.7, 7.8, 7.0, 6.8, 10.2};

  private static final double[] LOWER = {5.4, 5.9, 6.8, 7.1, 7.2, 11.0};
  private static final double SPREAD = 0.06;

  private final Draw draw;
  private final Mouth mouth;
  private final Course course;
  private final Skull skull;

  Imaging(Draw draw, Mouth mouth, Course course) {
    this.draw = draw;
    this.mouth = mouth;
    this.course = course;
    this.skull = new Skull(draw);
  }

  List<Film> films() {
    List<Film> films = new ArrayList<>();
    if (draw.chance(0.85)) {
      films.add(film("film-1", mouth.assessedOn, null));
      if (draw.chance(0.05)) {
        films.add(film("film-1b", mouth.assessedOn, "film-1"));
      }
    }
    LocalDate after = course.activeEndsOn;
    if (after != null && draw.chance(0.5)) {
      films.add(film("film-2", after, null));
    }
    return films;
  }

  private Film film(String id, LocalDate on, @Nullable String repeatOf) {
    double grown = course.path.done(on);
    Map<Landmark, double[]> skullAt =
        skull.at(
            grown,
            course.path.overjet(on),
            course.path.overbite(on),
            course.path.molar((mouth.molarRight + mouth.molarLeft) / 2, on));
    boolean known = draw.chance(0.85);
    double scale = known ? 1.08 : draw.between(1.05, 1.12);
    Map<Landmark, Point> traced = new EnumMap<>(Landmark.class);
    skullAt.forEach(
        (landmark, at) -> {
          if (!draw.chance(0.01)) {
            traced.put(landmark, new Point(traced(at[0], scale), traced(at[1], scale)));
          }
        });
    return new Film(
        id,
        on,
        JawPosition.HABITUAL,
        known ? Decimal.of("8") : null,
        traced,
        draw.chance(0.8) ? Gonion.CONSTRUCTED : null,
        draw.chance(0.8) ? "M. Okonjo" : null,
        repeatOf,
        repeatOf == null && on.equals(mouth.assessedOn) && draw.chance(0.6)
            ? mouth.vertebrae()
            : null);
  }

  /** A landmark is traced with an error of about 0.3 mm: common practice, no source. */
  private Decimal traced(double millimetres, double scale) {
    return Draw.rounded(millimetres * scale + draw.normal(0, 0.3, -0.9, 0.9), 1);
  }

  List<StudyModel> models() {
    if (!draw.chance(0.8)) {
      return List.of();
    }
    double size = draw.normal(1, 0.04, 0.88, 1.12);
    Map<Tooth, Length> widths = new TreeMap<>();
    for (Tooth tooth : mouth.teeth) {
      if (!tooth.deciduous() && tooth.position() <= 6) {
        double mean = (tooth.arch() == Arch.UPPER ? UPPER : LOWER)[tooth.position() - 1];
        double width = mean * size * draw.normal(1, SPREAD, 0.82, 1.18);
        widths.put(tooth, Draw.tenth(Math.max(3, Math.min(14, width))));
      }
    }
    double upper = 2 * (8.6 + 6.7 + 7.8 + 7.0 + 6.8) * size;
    double lower = 2 * (5.4 + 5.9 + 6.8 + 7.1 + 7.2) * size;
    return List.of(
        new StudyModel(
            "model-1",
            mouth.assessedOn,
            draw.chance(0.6) ? ModelSource.SCAN : ModelSource.PLASTER,
            widths,
            draw.chance(0.85)
                ? new BothArches(
                    Mouth.available(upper, mouth.upperCrowding),
                    Mouth.available(lower, mouth.lowerCrowding))
                : null,
            draw.chance(0.9) ? new Crowding(draw).contacts(mouth, 1) : null,
            draw.chance(0.5)
                ? new BothArches(
                    Draw.tenth(draw.normal(48, 2.5, 40, 56)),
                    Draw.tenth(draw.normal(43, 2.5, 36, 50)))
                : null,
            draw.chance(0.7) ? "J. Bright" : null,
            null));
  }
}
