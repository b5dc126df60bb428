package org.intercusp.web.fhir;

import java.time.Clock;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Parameters;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.summary.Audience;
import org.intercusp.summary.Summaries;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** {@code $treatment-summary}: the dentist's summary of a treatment as a document. */
@Component
class SummaryOperation {

  /** The one parameter: which treatment of the patient, by its id in the clinic. */
  static final String TREATMENT = "treatment";

  private final ResourceIndex index;
  private final TreatmentArchive archive;
  private final Documents documents;
  private final Summaries summaries;
  private final TreatmentReader reader;
  private final Clock clock;

  SummaryOperation(
      ResourceIndex index,
      TreatmentArchive archive,
      Documents documents,
      Summaries summaries,
      TreatmentReader reader,
      Clock clock) {
    this.index = index;
    this.archive = archive;
    this.documents = documents;
    this.summaries = summaries;
    this.reader = reader;
    this.clock = clock;
  }

  /** Of the treatment named, else of the one that was changed last. */
  Bundle summary(String patient, Asked asked, @Nullable Incoming body) {
    Reading.mustKnow(asked, java.util.Set.of(TREATMENT));
    if (index.current("Patient", patient).isEmpty()) {
      throw Fault.of(Reason.NOT_FOUND, "There is no such Patient.");
    }
    List<String> named = asked.params().getOrDefault(TREATMENT, List.of());
    @Nullable String wanted = named.isEmpty() ? inBody(body) : named.get(0);
    StoredTreatment stored =
        index.treatments(patient).stream()
            .filter(key -> wanted == null || key.treatment().equals(wanted))
            .flatMap(key -> archive.current(key).stream())
            .max(Comparator.comparing(StoredTreatment::receivedAt))
            .orElseThrow(
                () -> Fault.of(Reason.NOT_FOUND, "The patient has no such treatment here."));
    Treatment treatment = stored.read(reader);
    return summaries.document(treatment, treatment.dayOr(LocalDate.now(clock)), Audience.DENTIST);
  }

  private @Nullable String inBody(@Nullable Incoming body) {
    if (body == null || body.bytes().length == 0) {
      return null;
    }
    Resource sent = documents.read(body);
    if (!(sent instanceof Parameters parameters)) {
      throw Fault.of(
          Reason.NOT_TAKEN, "The operation takes Parameters, or nothing.", sent.fhirType());
    }
    return parameters.getParameter().stream()
        .filter(one -> TREATMENT.equals(one.getName()) && one.hasValue())
        .map(one -> one.getValue().primitiveValue())
        .findFirst()
        .orElse(null);
  }
}
