package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/** Which resources of a Bundle belong to a treatment, and in which order the file has them. */
final class TreatmentResources {

  private TreatmentResources() {}

  /** The plans of whole treatments: those in our category, else those that are part of no other. */
  static List<CarePlan> plans(BundleIndex index, Canonicals canonicals) {
    List<CarePlan> whole = new ArrayList<>();
    for (Resource resource : index.resources()) {
      if (resource instanceof CarePlan plan && !plan.hasPartOf() && !Withdrawal.isWithdrawn(plan)) {
        whole.add(plan);
      }
    }
    List<CarePlan> ours =
        whole.stream()
            .filter(
                plan ->
                    plan.getCategory().stream().anyMatch(c -> Codes.TREATMENT.isIn(c, canonicals)))
            .toList();
    return ours.isEmpty() ? whole : ours;
  }

  /** Those under the plan's own names; all there are where another system named it. */
  static List<Resource> of(CarePlan plan, BundleIndex index) {
    Optional<Identity> identity = BundleIndex.name(plan).map(Identity.Name::identity);
    IdentityHashMap<Resource, Integer> listed = new IdentityHashMap<>();
    for (Reference part : PlanMapper.parts(plan)) {
      Resource resource = index.resolve(part.getReference());
      if (resource != null) {
        listed.putIfAbsent(resource, listed.size());
      }
    }
    IdentityHashMap<Resource, Integer> ordinals = new IdentityHashMap<>();
    List<Resource> own = new ArrayList<>();
    for (Resource resource : index.resources()) {
      Optional<Identity.Name> name = BundleIndex.name(resource);
      boolean belongs =
          identity.isEmpty() || name.isEmpty() || name.get().identity().equals(identity.get());
      if (belongs && !Withdrawal.isWithdrawn(resource)) {
        own.add(resource);
        ordinals.put(resource, name.map(Identity.Name::ordinal).orElse(0));
      }
    }
    own.sort(
        Comparator.comparing((Resource r) -> listed.getOrDefault(r, Integer.MAX_VALUE))
            .thenComparing(r -> ordinals.getOrDefault(r, 0))
            .thenComparing(index::position));
    return own;
  }
}
