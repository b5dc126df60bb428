package org.intercusp.app;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.conformance.Conformance;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Finding;
import org.intercusp.rules.ConsentGate;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.jspecify.annotations.Nullable;

/** What a treatment must pass before it leaves: consent, the rules, and the validator. */
final class Gate implements Clearance {

  private final TreatmentReader reader;
  private final Examiner examiner;
  private final TreatmentMapper mapper;
  private final Conformance conformance;
  private final Clock clock;
  private final ConsentGate consent = new ConsentGate();

  Gate(
      TreatmentReader reader,
      Examiner examiner,
      TreatmentMapper mapper,
      Conformance conformance,
      Clock clock) {
    this.reader = reader;
    this.examiner = examiner;
    this.mapper = mapper;
    this.conformance = conformance;
    this.clock = clock;
  }

  @Override
  public Answer clear(StoredTreatment stored, ConsentScope scope) {
    ReadResult result = reader.read(stored.bytes());
    if (result instanceof ReadResult.Refused refused) {
      return new Answer.Stopped(refused.faults());
    }
    Treatment treatment = ((ReadResult.Accepted) result).treatment();
    LocalDate today = LocalDate.now(clock);
    LocalDate on = treatment.dayOr(today);
    Examination examination = examiner.examine(treatment, on);
    List<Finding> stopping = new ArrayList<>();
    // Consent is a matter of today, whatever day the record speaks of.
    consent.check(treatment, scope, today).ifPresent(stopping::add);
    examination.findings().stream()
        .filter(Judged::stops)
        .map(Judged::finding)
        .forEach(stopping::add);
    if (!stopping.isEmpty()) {
      return new Answer.Stopped(stopping);
    }
    List<Finding> findings = examination.plainFindings();
    Bundle bundle = mapper.toBundle(treatment, on, findings, BundleForm.TRANSACTION);
    conformance.mustPass(bundle);
    return new Answer.Ready(bundle);
  }

  @Override
  public Optional<Finding> consent(StoredTreatment stored, ConsentScope scope) {
    ReadResult result = reader.read(stored.bytes());
    if (result instanceof ReadResult.Refused refused) {
      return refused.faults().stream().findFirst();
    }
    Treatment treatment = ((ReadResult.Accepted) result).treatment();
    return consent.check(treatment, scope, LocalDate.now(clock));
  }

  @Override
  public Optional<Ended> ended(StoredTreatment stored, ConsentScope scope) {
    if (!(reader.read(stored.bytes()) instanceof ReadResult.Accepted accepted)) {
      return Optional.empty();
    }
    Treatment treatment = accepted.treatment();
    Consent given = treatment.patient().consent();
    LocalDate today = LocalDate.now(clock);
    LocalDate from = given == null ? null : end(given, scope, today);
    if (from == null) {
      return Optional.empty();
    }
    LocalDate on = treatment.dayOr(today);
    List<Finding> findings = examiner.examine(treatment, on).plainFindings();
    // Not judged as a whole: a withdrawal is taken and told whatever else is wrong in the record.
    Bundle bundle = mapper.toBundle(treatment, on, findings, BundleForm.TRANSACTION);
    return Optional.of(new Ended(from, bundle));
  }

  @Override
  public boolean bringsHarm(StoredTreatment now, Supplier<Optional<StoredTreatment>> before) {
    if (!(reader.read(now.bytes()) instanceof ReadResult.Accepted accepted)) {
      return false;
    }
    Treatment treatment = accepted.treatment();
    LocalDate on = treatment.dayOr(LocalDate.now(clock));
    Examination examination = examiner.examine(treatment, on);
    return examination.harmUnanswered()
        && examination.bringsHarm(before.get().map(one -> examined(one, on)).orElse(null));
  }

  /** Null for what can no longer be read. */
  private @Nullable Examination examined(StoredTreatment stored, LocalDate on) {
    return reader.read(stored.bytes()) instanceof ReadResult.Accepted accepted
        ? examiner.examine(accepted.treatment(), on)
        : null;
  }

  @Override
  public void check(Bundle notice) {
    conformance.mustPass(notice);
  }

  /** The first day on which a consent does not hold; null where none is in sight. */
  private static @Nullable LocalDate end(Consent consent, ConsentScope scope, LocalDate today) {
    if (!consent.given() || !consent.scope().contains(scope)) {
      return today;
    }
    return consent.withdrawnOn();
  }
}
