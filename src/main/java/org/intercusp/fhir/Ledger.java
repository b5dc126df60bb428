package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.AdverseEvent;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.treatment.Identifier;

/** What a Bundle delivers of ours, so that a later one can be held against it. */
public final class Ledger {

  private Ledger() {}

  /**
   * A resource delivered.
   *
   * @param type of the resource
   * @param identifier its business identifier
   * @param search what finds it where it is stored, behind {@code type?}
   */
  public record Line(String type, Identifier identifier, String search) {}

  /** Every resource of the treatment itself; those shared with others are not ours to withdraw. */
  public static List<Line> of(Bundle bundle) {
    List<Line> lines = new ArrayList<>();
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      Resource resource = entry.getResource();
      if (resource != null) {
        BundleIndex.identifiers(resource).stream()
            .filter(i -> i.hasSystem() && i.hasValue())
            .filter(i -> Identity.parse(i.getSystem(), i.getValue()).isPresent())
            .findFirst()
            .map(i -> new Identifier(i.getSystem(), i.getValue()))
            .ifPresent(i -> lines.add(line(resource, i)));
      }
    }
    return lines;
  }

  /** What was delivered once and is no longer there: each to be found and {@link Withdrawal}n. */
  public static List<Line> gone(List<Line> before, List<Line> now) {
    Set<Line> kept = new HashSet<>(now);
    return before.stream().filter(line -> !kept.contains(line)).toList();
  }

  private static Line line(Resource resource, Identifier identifier) {
    String parameter = resource instanceof AdverseEvent ? "_tag" : "identifier";
    return new Line(resource.fhirType(), identifier, Identity.search(parameter, identifier));
  }
}
