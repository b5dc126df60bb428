package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Observation;
import org.intercusp.treatment.Completion;
import org.jspecify.annotations.Nullable;

/** How the treatment stands or ended, decided on its effective day. */
final class CompletionMapper {

  private static final Panel<Completion> PANEL =
      new Panel<Completion>(Role.COMPLETION, Codes.TREATMENT_STATUS)
          .value("status", Kind.coded(LocalSystem.TREATMENT_STATUS), Completion::status)
          .part(
              "reason",
              Codes.COMPLETION_REASON,
              Kind.coded(LocalSystem.COMPLETION_REASON),
              Completion::reason)
          .part("lastAttendedOn", Codes.LAST_ATTENDED, Kind.date(), Completion::lastAttendedOn);

  void toFhir(@Nullable Completion completion, Writing writing) {
    if (completion != null) {
      writing.observe(PANEL, completion, completion.decidedOn());
    }
  }

  void fromFhir(Draft root, Reading reading) {
    for (Observation resource : reading.observations(Codes.TREATMENT_STATUS)) {
      String path = reading.path(resource);
      Draft draft = root.object("completion", path);
      Dated.put(draft, "decidedOn", resource, path);
      PANEL.read(resource, draft, reading);
      return;
    }
  }
}
