package org.intercusp.rules.bite;

import java.util.List;
import java.util.stream.IntStream;
import org.intercusp.analysis.bite.ConstructionBite;
import org.intercusp.analysis.bite.IntergingivalHeight.Band;
import org.intercusp.finding.Pointer;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Limit;
import org.intercusp.treatment.Bite;

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
