package org.intercusp.web.fhir;

import java.util.ArrayList;
import java.util.Date;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.intercusp.archive.FiledResource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Outcomes;
import org.intercusp.conformance.Weight;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.Standing;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.web.fhir.BundleIntake.Submitted;
import org.springframework.stereotype.Component;

/**
 * Takes whole treatments as Bundles. What does not conform, or cannot be read as a treatment, is
 * refused whole; findings of the trade's rules are told and stop nothing here, as at {@code
 * /treatments}. The same Bundle again leaves everything as it is.
 */
@Component
class TreatmentIntake {

  /** Tries at a treatment that others are changing; common practice, no source. */
  private static final int TRIES = 5;

  private static final String TRADE = "business-rule";

  private final Conformance conformance;
  private final TreatmentMapper mapper;
  private final TreatmentArchive archive;
  private final StoringAndQueueing storing;
  private final ResourceIndex index;
  private final Rendering rendering;
  private final Outcomes outcomes;
  private final TreatmentWriter writer = new TreatmentWriter();

  TreatmentIntake(
      Conformance conformance,
      TreatmentMapper mapper,
      TreatmentArchive archive,
      StoringAndQueueing storing,
      ResourceIndex index,
      Rendering rendering,
      Outcomes outcomes) {
    this.conformance = conformance;
    this.mapper = mapper;
    this.archive = archive;
    this.storing = storing;
    this.index = index;
    this.rendering = rendering;
    this.outcomes = outcomes;
  }

  Bundle take(Submitted submitted) {
    List<Issue> issues =
        conformance.validate(submitted.document().bytes(), submitted.document().format());
    List<Issue> stopping =
        issues.stream()
            .filter(issue -> issue.weight().stops() && !issue.type().equals(TRADE))
            .toList();
    if (!stopping.isEmpty()) {
      throw Fault.of(Reason.NOT_CONFORMANT, stopping);
    }
    ReadBack read = mapper.fromBundle(submitted.bundle());
    Treatment treatment = read.treatment();
    if (treatment == null) {
      throw Fault.of(
          Reason.NOT_CONFORMANT,
          read.faults().stream()
              .map(fault -> Fault.issue(Reason.NOT_CONFORMANT, Weight.ERROR, fault.message()))
              .toList());
    }
    TreatmentKey key = key(treatment);
    long before = index.moment();
    boolean changed = file(key, writer.write(treatment)) instanceof Storing.Stored;
    return answer(submitted, issues, key, changed ? before : Long.MAX_VALUE);
  }

  private static TreatmentKey key(Treatment treatment) {
    try {
      return TreatmentKey.of(treatment);
    } catch (IllegalArgumentException e) {
      throw Fault.of(Reason.NOT_CONFORMANT, e.getMessage() + ".");
    }
  }

  private Storing file(TreatmentKey key, byte[] canonical) {
    for (int i = 0; i < TRIES; i++) {
      Optional<StoredTreatment> current = archive.current(key);
      Storing end =
          (current.isEmpty()
                  ? storing.store(key, canonical, List.of())
                  : storing.replace(key, current.get().version(), canonical, List.of()))
              .storing();
      if (end instanceof Storing.Stored || end instanceof Storing.Same) {
        return end;
      }
      if (end instanceof Storing.Erased) {
        throw Fault.of(
            Reason.NOT_TAKEN, "This treatment was erased; its id is not used again.", "Bundle");
      }
    }
    throw Fault.of(Reason.CHANGED, "Others are changing this treatment; send it again.");
  }

  private Bundle answer(Submitted submitted, List<Issue> issues, TreatmentKey key, long before) {
    List<List<String>> candidates = new ArrayList<>();
    for (BundleEntryComponent entry : submitted.bundle().getEntry()) {
      candidates.add(Standing.possibleIds(key.clinic(), entry.getResource()));
    }
    Set<String> asked = new LinkedHashSet<>();
    candidates.forEach(asked::addAll);
    Map<String, FiledResource> filed =
        index.currents(asked).stream()
            .collect(Collectors.toMap(FiledResource::id, Function.identity()));
    Bundle answer = new Bundle().setType(BundleType.TRANSACTIONRESPONSE);
    for (int i = 0; i < candidates.size(); i++) {
      Optional<FiledResource> here =
          candidates.get(i).stream().filter(filed::containsKey).map(filed::get).findFirst();
      entry(answer.addEntry(), here, told(issues, i, submitted.asked()), submitted, before);
    }
    return answer;
  }

  private void entry(
      BundleEntryComponent entry,
      Optional<FiledResource> here,
      List<Issue> told,
      Submitted submitted,
      long before) {
    List<Issue> said = new ArrayList<>(told);
    Bundle.BundleEntryResponseComponent response = entry.getResponse().setStatus("200 OK");
    if (here.isPresent()) {
      FiledResource filed = here.get();
      boolean fresh = filed.version() == 1 && filed.sequence() > before;
      String place = filed.type() + "/" + filed.id();
      response
          .setStatus(fresh ? "201 Created" : "200 OK")
          .setLocation(place + "/_history/" + filed.version())
          .setEtag(Rendering.tag(filed))
          .setLastModified(Date.from(filed.updatedAt()));
      entry.setFullUrl(submitted.asked().base() + "/" + place);
      if (submitted.asked().returned() == Asked.Returned.REPRESENTATION) {
        entry.setResource(rendering.resource(filed));
      }
    } else {
      said.add(
          Fault.issue(
              Reason.NOT_TAKEN,
              Weight.INFORMATION,
              "What this says of the treatment was taken into it; by itself it is not kept."));
    }
    if (!said.isEmpty() || submitted.asked().returned() == Asked.Returned.OPERATIONOUTCOME) {
      response.setOutcome(outcomes.of(said));
    }
  }

  /** What is told of an entry; what is of no entry is told of the first. */
  private static List<Issue> told(List<Issue> issues, int entry, Asked asked) {
    boolean all = asked.returned() == Asked.Returned.OPERATIONOUTCOME;
    return issues.stream()
        .filter(issue -> all || issue.type().equals(TRADE) || issue.rule().equals("fhir-unplaced"))
        .filter(issue -> entryOf(issue) == entry)
        .toList();
  }

  private static int entryOf(Issue issue) {
    String at = issue.expression() == null ? "" : issue.expression();
    String prefix = "Bundle.entry[";
    int end = at.indexOf(']');
    boolean named = at.startsWith(prefix) && end > 0;
    return named ? Integer.parseInt(at.substring(prefix.length(), end)) : 0;
  }
}
