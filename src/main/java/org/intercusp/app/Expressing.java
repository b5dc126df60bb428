package org.intercusp.app;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.archive.Expression;
import org.intercusp.archive.ResourceTerms;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.fhir.Withdrawal;
import org.intercusp.fhir.search.SearchTerms;
import org.intercusp.fhir.search.SearchedBy;
import org.intercusp.fhir.search.Term;
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
  private final SearchTerms terms;

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
    this.terms = new SearchTerms(context);
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

  @Override
  public ResourceTerms terms(String content) {
    List<ResourceTerms.Code> codes = new ArrayList<>();
    Instant begins = null;
    Instant ends = null;
    for (Term term : terms.of((Resource) context.newJsonParser().parseResource(content))) {
      if (term instanceof Term.Coded coded) {
        codes.add(new ResourceTerms.Code(term.by().code(), coded.system(), coded.code()));
      } else if (term instanceof Term.Timed timed) {
        // One a type is offered, and none of them is a list in what we say.
        begins = timed.begins();
        ends = timed.ends();
      }
    }
    return new ResourceTerms(codes, begins, ends);
  }

  @Override
  public int termsForm() {
    return SearchedBy.FORM;
  }
}
