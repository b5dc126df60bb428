package org.intercusp.rules.bite;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.intercusp.analysis.bite.ConstructionBite;
import org.intercusp.analysis.bite.IntergingivalHeight.Band;
import org.intercusp.analysis.stage.Worn;
import org.intercusp.finding.Pointer;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Limit;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;

/** A bite, where it stands in the file, and what follows from its readings. */
record BiteAt(int index, Bite bite, ConstructionBite computed) {

  static final String FHIR_PATH =
      "Bundle.entry.resource.ofType(Observation)"
          + ".where(code.coding.code = 'construction-bite')";

  static List<BiteAt> all(Case about) {
    List<Bite> bites = about.treatment().bites();
    return IntStream.range(0, bites.size())
        .mapToObj(
            i -> new BiteAt(i, bites.get(i), ConstructionBite.of(bites.get(i), about.error())))
        .toList();
  }

  /**
   * The bites that something is made to, or may still be: not one that has been registered again
   * since and that no appliance and no re-activation rests on. What was wrong with the way it was
   * taken has been put right.
   */
  static List<BiteAt> standing(Case about) {
    return all(about).stream()
        .filter(at -> at.used(about.treatment()) || !at.registeredAgain(about.treatment()))
        .toList();
  }

  private boolean used(Treatment treatment) {
    return treatment.appliances().stream().anyMatch(each -> bite.id().equals(each.biteId()))
        || treatment.reviews().stream().anyMatch(this::reactivates);
  }

  private boolean registeredAgain(Treatment treatment) {
    List<Bite> bites = treatment.bites();
    return IntStream.range(0, bites.size())
        .anyMatch(
            i ->
                bites.get(i).recordedOn().isAfter(bite.recordedOn())
                    || (bites.get(i).recordedOn().equals(bite.recordedOn()) && i > index));
  }

  /** The appliances it is for: built to it, or worn when they were re-activated to it. */
  Stream<Appliance> appliances(Treatment treatment) {
    Stream<Appliance> built =
        treatment.appliances().stream().filter(each -> bite.id().equals(each.biteId()));
    Stream<Appliance> reactivated =
        treatment.reviews().stream()
            .filter(this::reactivates)
            .flatMap(review -> Worn.on(treatment, review.date()).stream());
    return Stream.concat(built, reactivated);
  }

  private boolean reactivates(Review review) {
    Review.Reactivation taken = review.reactivation();
    return taken != null && bite.id().equals(taken.biteId());
  }

  static String component(String code) {
    return FHIR_PATH + ".component.where(code.coding.code = '" + code + "')";
  }

  Pointer at(String member) {
    return Pointer.of("bites", index, member);
  }

  String id() {
    return bite.id();
  }

  static Band band(Case about) {
    return about.adult()
        ? new Band(
            about.limits().length(Limit.HEIGHT_ADULT_LOW),
            about.limits().length(Limit.HEIGHT_ADULT_HIGH))
        : new Band(
            about.limits().length(Limit.HEIGHT_CHILD_LOW),
            about.limits().length(Limit.HEIGHT_CHILD_HIGH));
  }
}
