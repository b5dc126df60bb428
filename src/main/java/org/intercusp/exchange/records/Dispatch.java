package org.intercusp.exchange.records;

import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Issue;
import org.intercusp.exchange.wire.Target;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;

/** Maps, validates and delivers a treatment at once, for who waits for the answer. */
public final class Dispatch {

  private final TreatmentMapper mapper;
  private final Conformance conformance;
  private final RecordsClient client;

  public Dispatch(TreatmentMapper mapper, Conformance conformance, RecordsClient client) {
    this.mapper = mapper;
    this.conformance = conformance;
    this.client = client;
  }

  /**
   * What would be sent, as the validator judges it: an empty list, or warnings, may go.
   *
   * @param findings of the rules, which travel with the record
   */
  public List<Issue> issues(Treatment treatment, LocalDate on, List<Finding> findings) {
    return conformance.on(on).validate(bundle(treatment, on, findings));
  }

  /**
   * Delivers, finding on the server itself what was delivered before.
   *
   * @throws org.intercusp.conformance.NotConformant when the Bundle must not leave
   */
  public DeliveryResult send(
      Target target, Treatment treatment, LocalDate on, List<Finding> findings) {
    Bundle bundle = bundle(treatment, on, findings);
    conformance.on(on).mustPass(bundle);
    return client.deliver(target, bundle, Ledger.NONE);
  }

  private Bundle bundle(Treatment treatment, LocalDate on, List<Finding> findings) {
    return mapper.toBundle(treatment, on, findings, BundleForm.TRANSACTION);
  }
}
