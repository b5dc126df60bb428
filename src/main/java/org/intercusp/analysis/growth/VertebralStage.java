package org.intercusp.analysis.growth;

import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.BodyShape;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.Vertebrae;

/**
 * Cervical vertebral maturation stage from what was seen on a film (Semin Orthod 2005;11:119-129).
 */
public final class VertebralStage {

  public static final Source SOURCE = Source.published("Semin Orthod 2005;11:119-129");

  private VertebralStage() {}

  /**
   * No concave lower border is CS1, C2 alone CS2, C2 and C3 CS3, all three CS4; with all three a
   * square body makes CS5 and a vertical one CS6. Any other pattern contradicts itself and has no
   * stage.
   */
  public static Reckoned<GrowthStage> of(Vertebrae seen) {
    if ((seen.c4Concave() && !seen.c3Concave()) || (seen.c3Concave() && !seen.c2Concave())) {
      return Reckoned.lacking(
          "vertebrae contradict each other: a lower border is concave below one that is not");
    }
    boolean vertical = shows(seen, BodyShape.VERTICAL);
    boolean square = shows(seen, BodyShape.SQUARE);
    if (!seen.c4Concave() && (vertical || square)) {
      return Reckoned.lacking(
          "vertebrae contradict each other: a square or vertical body above a C4 that is not concave");
    }
    return Reckoned.known(stage(seen, vertical, square));
  }

  private static GrowthStage stage(Vertebrae seen, boolean vertical, boolean square) {
    if (vertical) {
      return GrowthStage.CS6;
    }
    if (square) {
      return GrowthStage.CS5;
    }
    if (seen.c4Concave()) {
      return GrowthStage.CS4;
    }
    if (seen.c3Concave()) {
      return GrowthStage.CS3;
    }
    return seen.c2Concave() ? GrowthStage.CS2 : GrowthStage.CS1;
  }

  private static boolean shows(Vertebrae seen, BodyShape shape) {
    return seen.c3Shape() == shape || seen.c4Shape() == shape;
  }

  /** The stage of a film, and the published effect of treatment at it. */
  public static List<Figure> figures(Film film) {
    Vertebrae seen = film.vertebrae();
    Reckoned<GrowthStage> stage =
        seen == null
            ? Reckoned.lacking("vertebrae of film " + film.id() + " are not recorded")
            : of(seen);
    Reckoned<GrowthEffect> effect = stage.flatMap(GrowthEffect::at);
    return new FigureSheet(film.id())
        .words("growth-stage", stage.map(GrowthStage::code), Context.of(SOURCE))
        .number(
            "extra-mandibular-length-a-year",
            effect.map(known -> known.aYear().value()),
            2,
            Unit.MILLIMETRE,
            Context.of(GrowthEffect.SOURCE)
                .usually(effect.map(GrowthEffect::range).result().orElse(null))
                .noting("with treatment over growth without; a finding, not a bar"))
        .figures();
  }
}
