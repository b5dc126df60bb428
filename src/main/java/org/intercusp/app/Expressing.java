package org.intercusp.app;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.archive.Expression;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.fhir.Withdrawal;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;

/** Says stored treatments in FHIR R4, as JSON. */
final class Expressing implements Expression {

  private final TreatmentReader reader;
  private final Examiner examiner;
  private final TreatmentMapper mapper;
  private final FhirContext context;
  private final Clock clock;

  Expressing(
      TreatmentReader reader,
      Examiner examiner,
      TreatmentMapper mapper,
      FhirContext context,
      Clock clock) {
    this.reader = reader;
    this.examiner = examiner;
    this.mapper = mapper;
    this.context = context;
    this.clock = clock;
  }

  @Override
  public List<Expressed> of(StoredTreatment stored) {
    Treatment treatment = stored.read(reader);
    // The day it was taken, so that filing it later says the same.
    LocalDate on = treatment.dayOr(LocalDate.ofInstant(stored.receivedAt(), clock.getZone()));
    List<Finding> findings = examiner.examine(treatment, on).plainFindings();
    return mapper.toResources(treatment, findings).stream()
        .map(
            one ->
                new Expressed(
                    one.resource().fhirType(),
                    one.id(),
                    one.identifier(),
                    one.shared(),
                    one.patient(),
                    context.newJsonParser().encodeResourceToString(one.resource())))
        .toList();
  }

  @Override
  public String withdrawn(String content) {
    Resource stored = (Resource) context.newJsonParser().parseResource(content);
    return context.newJsonParser().encodeResourceToString(Withdrawal.of(stored));
  }
}
