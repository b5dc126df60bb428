package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Review;

/**
 * A review: the visit, what was measured and seen at it, what was done, harm, and what comes next.
 */
final class ReviewMapper {

  private static final Kind<Length> MM = Kind.quantity(Unit.MILLIMETRE);

  private static final List<Panel<Review>> SEEN =
      List.of(
          new Panel<Review>(Role.OVERJET, Codes.OVERJET).value("overjet", MM, Review::overjet),
          new Panel<Review>(Role.OVERJET_RETRUDED, Codes.OVERJET_RETRUDED)
              .value("overjetRetruded", MM, Review::overjetRetruded),
          new Panel<Review>(Role.OVERBITE, Codes.OVERBITE).value("overbite", MM, Review::overbite),
          new Panel<Review>(Role.MOLAR_RELATION, Codes.MOLAR_RELATION)
              .sides(
                  "molarRelation",
                  Codes.MOLAR_RELATION_RIGHT,
                  Codes.MOLAR_RELATION_LEFT,
                  Review::molarRelation),
          new Panel<Review>(Role.POSTERIOR_OPEN_BITE, Codes.POSTERIOR_OPEN_BITE)
              .sides(
                  "posteriorOpenBite",
                  Codes.POSTERIOR_OPEN_BITE_RIGHT,
                  Codes.POSTERIOR_OPEN_BITE_LEFT,
                  Review::posteriorOpenBite),
          new Panel<Review>(Role.TENDERNESS, Codes.TENDERNESS)
              .value(
                  "retractionTenderness",
                  Kind.coded(LocalSystem.TENDERNESS),
                  Review::retractionTenderness),
          new Panel<Review>(Role.JOINT_SIGNS, Codes.JOINT_SIGNS).jointSigns(Review::jointSigns),
          new Panel<Review>(Role.MAXIMUM_OPENING, Codes.MAXIMUM_OPENING)
              .value("maximumOpening", MM, Review::maximumOpening),
          new Panel<Review>(Role.SCREW_TURNS, Codes.SCREW_TURNS)
              .value("screwTurns", Kind.count(Unit.COUNT), Review::screwTurns),
          new Panel<Review>(Role.HYGIENE, Codes.HYGIENE)
              .value("hygiene", Kind.coded(LocalSystem.HYGIENE), Review::hygiene),
          new Panel<Review>(Role.NOTE, Codes.NOTE).value("note", Kind.text(), Review::note));

  private final VisitMapper visits = new VisitMapper();
  private final WearMapper wear = new WearMapper();
  private final TrimMapper trims = new TrimMapper();
  private final RepairMapper repairs = new RepairMapper();
  private final ReactivationMapper reactivations = new ReactivationMapper();
  private final HarmMapper harm = new HarmMapper();
  private final NextReviewMapper nextReviews = new NextReviewMapper();

  /** What is measured and seen at a visit, each an Observation. */
  static List<Panel<Review>> seen() {
    return SEEN;
  }

  void toFhir(Review review, Writing writing) {
    visits.toFhir(review, writing);
    for (Panel<Review> panel : SEEN) {
      Observation seen = writing.observe(panel, review, review.date(), review.id());
      if (seen != null) {
        at(review, seen, writing);
      }
    }
    wear.toFhir(review, writing);
    trims.toFhir(review, writing);
    repairs.toFhir(review, writing);
    reactivations.toFhir(review, writing);
    harm.toFhir(review, writing);
    nextReviews.toFhir(review, writing);
  }

  /** Hangs an Observation on its visit and stage. */
  static Observation at(Review review, Observation observation, Writing writing) {
    observation.setEncounter(writing.to("Encounter", Role.REVIEW, review.id()));
    observation.addBasedOn(writing.to("CarePlan", Role.STAGE, review.stageId()));
    return observation;
  }

  void fromFhir(Draft root, Reading reading) {
    root.array("reviews");
    for (Encounter visit : reading.all(Encounter.class)) {
      Draft draft = root.element("reviews", reading.path(visit));
      visits.fromFhir(visit, draft, reading);
      for (Panel<Review> panel : SEEN) {
        for (Observation seen : reading.observations(panel.code())) {
          if (reading.leadsTo(seen.getEncounter(), visit)) {
            panel.read(seen, draft, reading);
            break;
          }
        }
      }
      wear.fromFhir(visit, draft, reading);
      trims.fromFhir(visit, draft, reading);
      repairs.fromFhir(visit, draft, reading);
      reactivations.fromFhir(visit, draft, reading);
      harm.fromFhir(visit, draft, reading);
      nextReviews.fromFhir(visit, draft, reading);
    }
  }
}
