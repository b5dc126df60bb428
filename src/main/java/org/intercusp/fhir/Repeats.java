package org.intercusp.fhir;

import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.jspecify.annotations.Nullable;

/** What films, models and scorings share: who measured, and what is measured a second time. */
final class Repeats {

  private Repeats() {}

  /** A person who is only named measured it; where nobody is, nobody is said to have. */
  static void measurer(Observation resource, @Nullable String name) {
    resource.getPerformer().clear();
    if (name != null) {
      resource.addPerformer(new Reference().setDisplay(name));
    }
  }

  static void measurer(Observation resource, Draft draft, String member, String path) {
    if (resource.hasPerformer() && resource.getPerformerFirstRep().hasDisplay()) {
      draft.put(
          member, resource.getPerformerFirstRep().getDisplay(), path + ".performer[0].display");
    }
  }

  static void repeatOf(Observation resource, Role role, @Nullable String id, Writing writing) {
    if (id != null) {
      resource.addDerivedFrom(writing.to("Observation", role, id));
    }
  }

  static void repeatOf(Observation resource, Draft draft, String path, Reading reading) {
    if (resource.hasDerivedFrom()) {
      draft.put(
          "repeatOf", reading.idOf(resource.getDerivedFromFirstRep()), path + ".derivedFrom[0]");
    }
  }

  static <V> void method(Observation resource, Kind<V> kind, V value, Writing writing) {
    resource.setMethod((CodeableConcept) kind.out().apply(value, writing.canonicals()));
  }

  static void source(Observation resource, Kind<?> kind, Draft draft, Reading reading) {
    String at = reading.path(resource) + ".method";
    CodeableConcept method = resource.hasMethod() ? resource.getMethod() : null;
    draft.put("source", reading.value(kind, method, at), at);
  }
}
