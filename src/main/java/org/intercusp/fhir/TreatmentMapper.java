package org.intercusp.fhir;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;

/**
 * A treatment as FHIR R4 Bundle and back. The same treatment gives the same bytes: nothing in them
 * depends on the clock. What was written reads back as the same treatment.
 */
public final class TreatmentMapper {

  private final Canonicals canonicals;
  private final Resources resources = new Resources();

  /** A mapper whose profiles and code systems stand under the base given. */
  public TreatmentMapper(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  /** Where its profiles and code systems stand. */
  public Canonicals canonicals() {
    return canonicals;
  }

  /**
   * Writes a treatment.
   *
   * @param on the day it is, which a document is dated by
   * @param findings of the rules, each a DetectedIssue
   */
  public Bundle toBundle(
      Treatment treatment, LocalDate on, List<Finding> findings, BundleForm form) {
    Writing writing = new Writing(treatment, canonicals);
    resources.toFhir(writing, findings);
    return new Bundling(writing, on).bundle(form);
  }

  /**
   * Writes a treatment as resources that stand by themselves, as a server keeps them.
   *
   * @param findings of the rules, each a DetectedIssue
   */
  public List<Standing> toResources(Treatment treatment, List<Finding> findings) {
    Writing writing = new Writing(treatment, canonicals);
    resources.toFhir(writing, findings);
    return new Unbundling(writing).all();
  }

  /**
   * Binds a document's words with what of the record its reader may have.
   *
   * @param on the day it is, which the document is dated by
   * @param findings of the rules, each a DetectedIssue where the record is in it
   */
  public Bundle toDocument(
      Treatment treatment, LocalDate on, List<Finding> findings, DocumentFrame frame) {
    Writing writing = new Writing(treatment, canonicals);
    resources.toFhir(writing, findings);
    return new FramedDocument(writing, frame, on).bundle();
  }

  /**
   * Reads the one treatment of a Bundle of type transaction, collection, document or searchset.
   * Faults are collected, never thrown.
   */
  public ReadBack fromBundle(Bundle bundle) {
    List<ReadBack> treatments = treatments(bundle);
    if (treatments.size() == 1) {
      return treatments.get(0);
    }
    String what =
        treatments.isEmpty()
            ? "expected a CarePlan that is a treatment plan, found none"
            : "expected one treatment, found " + treatments.size();
    Finding fault = Reading.refusal("missing-member", "Bundle", "", what);
    return new ReadBack(null, List.of(fault), List.of(), Map.of());
  }

  /** Reads every treatment of a Bundle, such as a search for all that is known of a patient. */
  public List<ReadBack> treatments(Bundle bundle) {
    BundleIndex index = new BundleIndex(bundle);
    return TreatmentResources.plans(index, canonicals).stream()
        .map(plan -> read(index, plan))
        .toList();
  }

  private ReadBack read(BundleIndex index, CarePlan plan) {
    List<Resource> own = TreatmentResources.of(plan, index);
    Reading reading = new Reading(index, own, canonicals);
    Draft root = new Draft(reading.path(plan));
    resources.fromFhir(plan, root, reading);
    return new Judging(reading, root)
        .judged(treatment -> new Strays(own, index, remapped(treatment)).found());
  }

  private List<Writing.Entry> remapped(Treatment treatment) {
    Writing writing = new Writing(treatment, canonicals);
    resources.toFhir(writing, List.of());
    return writing.entries();
  }
}
