package org.intercusp.summary.drawing;

import java.util.List;

/**
 * The space between the posterior teeth in the bite and the two blocks that fill it, in mm behind
 * the upper incisal edge and below the upper occlusal plane. The lower plane is straight through
 * the heights at first premolars and first molars.
 */
final class Wedge {

  private static final double PREMOLAR = Blocks.upper(4);
  private static final double MOLAR = Blocks.upper(6);

  /** Drawn where none is prescribed: usual, common practice, no source. */
  private static final double USUAL_INCLINE = 70;

  record Place(double behind, double below) {}

  private final BlockView view;
  private final double front;
  private final double back;
  private final double meet;
  private final double tangent;

  private Wedge(BlockView view) {
    this.view = view;
    double lowerEdge = view.overjet();
    front = lowerEdge + Blocks.lower(view.lowerMesial()) - Blocks.width(view.lowerMesial()) / 2;
    double lowerBack =
        lowerEdge + Blocks.lower(view.lowerDistal()) + Blocks.width(view.lowerDistal()) / 2;
    double upperFront = Blocks.upper(view.upperMesial()) - Blocks.width(view.upperMesial()) / 2;
    back =
        Math.max(
            Blocks.upper(view.upperDistal()) + Blocks.width(view.upperDistal()) / 2,
            upperFront + 4);
    double angle = view.incline() == null ? USUAL_INCLINE : view.incline().asDouble();
    tangent = Math.tan(Math.toRadians(Math.max(20, Math.min(90, angle))));
    meet = Math.max(front + 2, Math.min(back - 2, (lowerBack + upperFront) / 2));
  }

  static Wedge of(BlockView view) {
    return new Wedge(view);
  }

  double premolarAt() {
    return PREMOLAR;
  }

  double molarAt() {
    return MOLAR;
  }

  /** How far the lower plane lies below the upper one. */
  private double gap(double behind) {
    double slope = (view.molar() - view.premolar()) / (MOLAR - PREMOLAR);
    return Math.max(0.2, view.premolar() + slope * (behind - PREMOLAR));
  }

  /** The turn of the lower plane, what lies behind rising when positive. */
  double turn() {
    return Math.atan2(view.premolar() - view.molar(), MOLAR - PREMOLAR);
  }

  Place lowerEdge() {
    return new Place(view.overjet(), gap(view.overjet()));
  }

  /** The incline rises forward: its top lies in front of its foot. */
  Place inclineTop() {
    return new Place(meet - gap(meet) / 2 / tangent, 0);
  }

  Place inclineFoot() {
    double behind = meet + gap(meet) / 2 / tangent;
    return new Place(behind, gap(behind));
  }

  List<Place> upper() {
    return List.of(inclineTop(), inclineFoot(), new Place(back, gap(back)), new Place(back, 0));
  }

  List<Place> lower() {
    return List.of(inclineTop(), inclineFoot(), new Place(front, gap(front)), new Place(front, 0));
  }

  Place upperMiddle() {
    double behind = (inclineFoot().behind() + back) / 2;
    return new Place(behind, gap(behind) * 0.3);
  }

  Place lowerMiddle() {
    double behind = (inclineTop().behind() + front) / 2 + 1;
    return new Place(behind, gap(behind) * 0.7);
  }

  /** What is taken off the upper block behind its incline, which is never cut. */
  List<Place> strip(double amount) {
    double from = Math.min(back - 1, inclineFoot().behind() + 1.5);
    return List.of(
        new Place(from, gap(from)),
        new Place(back, gap(back)),
        new Place(back, Math.max(0, gap(back) - amount)),
        new Place(from, Math.max(0, gap(from) - amount)));
  }
}
