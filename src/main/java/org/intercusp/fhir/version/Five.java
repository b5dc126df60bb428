package org.intercusp.fhir.version;

import ca.uhn.fhir.parser.DataFormatException;
import java.util.List;
import org.hl7.fhir.convertors.factory.VersionConvertorFactory_40_50;
import org.hl7.fhir.exceptions.FHIRException;
import org.hl7.fhir.r4.model.AdverseEvent;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Resource;

/**
 * R4 to R5 and back: the library's converter resource by resource, then the repairs. A Bundle's own
 * part is converted apart from what it holds, since the converter refuses a Bundle for one entry.
 */
final class Five {

  private final AdverseEvents adverseEvents;
  private final List<Repair<?, ?>> repairs;

  /**
   * @param carried what R5 has no element for
   */
  Five(Carried carried) {
    this.adverseEvents = new AdverseEvents(carried);
    this.repairs =
        List.of(
            new ConditionState(),
            new ConsentDecision(carried),
            new DevicePatient(carried),
            new DeviceProperties(carried),
            new Images(carried),
            new OrganisationContact(),
            new PriorRequest(),
            new RelatedContext(carried),
            new SectionMode(carried),
            new TaskRestriction());
  }

  org.hl7.fhir.r5.model.Resource up(Resource resource) {
    Resource from = resource.copy();
    TypeNames.up(from);
    try {
      if (from instanceof Bundle bundle) {
        return bundle(bundle);
      }
      var to =
          from instanceof AdverseEvent event
              ? adverseEvents.up(event)
              : VersionConvertorFactory_40_50.convertResource(from);
      repairs.forEach(repair -> up(repair, from, to));
      return to;
    } catch (FHIRException e) {
      throw new DataFormatException("cannot be written in R5: " + e.getMessage(), e);
    }
  }

  Resource down(org.hl7.fhir.r5.model.Resource from) {
    try {
      Resource to;
      if (from instanceof org.hl7.fhir.r5.model.Bundle bundle) {
        to = bundle(bundle);
      } else {
        to =
            from instanceof org.hl7.fhir.r5.model.AdverseEvent event
                ? adverseEvents.down(event)
                : VersionConvertorFactory_40_50.convertResource(from);
        repairs.forEach(repair -> down(repair, from, to));
      }
      TypeNames.down(to);
      return to;
    } catch (FHIRException e) {
      throw new DataFormatException("cannot be read as R4: " + e.getMessage(), e);
    }
  }

  private org.hl7.fhir.r5.model.Bundle bundle(Bundle from) {
    List<Resource> held = from.getEntry().stream().map(BundleEntryComponent::getResource).toList();
    from.getEntry().forEach(entry -> entry.setResource(null));
    var to = (org.hl7.fhir.r5.model.Bundle) VersionConvertorFactory_40_50.convertResource(from);
    for (int i = 0; i < held.size(); i++) {
      if (held.get(i) != null) {
        to.getEntry().get(i).setResource(up(held.get(i)));
      }
    }
    return to;
  }

  private Bundle bundle(org.hl7.fhir.r5.model.Bundle from) {
    var shell = from.copy();
    shell.getEntry().forEach(entry -> entry.setResource(null));
    Bundle to = (Bundle) VersionConvertorFactory_40_50.convertResource(shell);
    for (int i = 0; i < from.getEntry().size(); i++) {
      if (from.getEntry().get(i).hasResource()) {
        to.getEntry().get(i).setResource(down(from.getEntry().get(i).getResource()));
      }
    }
    return to;
  }

  private static <F extends Resource, T extends org.hl7.fhir.r5.model.Resource> void up(
      Repair<F, T> repair, Resource from, org.hl7.fhir.r5.model.Resource to) {
    if (repair.four().isInstance(from) && repair.five().isInstance(to)) {
      repair.up(repair.four().cast(from), repair.five().cast(to));
    }
  }

  private static <F extends Resource, T extends org.hl7.fhir.r5.model.Resource> void down(
      Repair<F, T> repair, org.hl7.fhir.r5.model.Resource from, Resource to) {
    if (repair.four().isInstance(to) && repair.five().isInstance(from)) {
      repair.down(repair.five().cast(from), repair.four().cast(to));
    }
  }
}
