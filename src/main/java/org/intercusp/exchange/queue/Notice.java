package org.intercusp.exchange.queue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.Ledger;

/**
 * What a recipient who was given a treatment is still told once consent does not cover it any more:
 * the consent as it stands now, and nothing else of the record.
 */
public final class Notice {

  /** What is said of the delivery. */
  public static final String TOLD = "Told that consent has ended; nothing else was sent";

  private Notice() {}

  /**
   * The transaction that tells it, from that of the whole treatment: the consent, with the patient
   * it is of and the clinic that says so, both of which the recipient holds already.
   *
   * @return empty where the recipient was not given consent before
   */
  public static Optional<Bundle> of(Bundle whole, TreatmentKey key, Ledger ledger) {
    if (ledger.lines().stream().noneMatch(line -> line.type().equals("Consent"))) {
      return Optional.empty();
    }
    Bundle notice = new Bundle().setType(BundleType.TRANSACTION);
    for (BundleEntryComponent entry : whole.getEntry()) {
      Resource one = entry.getResource();
      boolean told = one instanceof Consent || one instanceof Patient;
      if (told || (one instanceof Organization organization && isClinic(organization, key))) {
        notice.addEntry(entry.copy());
      }
    }
    return Optional.of(notice);
  }

  private static boolean isClinic(Organization organization, TreatmentKey key) {
    return organization.getIdentifier().stream()
        .anyMatch(
            one ->
                key.clinic().system().equals(one.getSystem())
                    && key.clinic().value().equals(one.getValue()));
  }

  /** What is remembered of the resources of a notice: else the rest would count as gone. */
  public static Ledger about(Ledger ledger) {
    return Ledger.of(ledger.lines().stream().filter(line -> line.type().equals("Consent")).toList())
        .about(ledger.patient());
  }

  /** The report with all that is remembered of the treatment, the notice's part as it is now. */
  public static DeliveryReport remembering(Ledger before, DeliveryReport report) {
    Map<String, Ledger.Line> lines = new LinkedHashMap<>();
    List<Ledger.Line> all = new ArrayList<>(before.lines());
    all.addAll(report.ledger().lines());
    all.forEach(line -> lines.put(line.type() + "?" + line.token().search(), line));
    return new DeliveryReport(
        report.server(),
        report.way(),
        report.entries(),
        report.differences(),
        report.duplicates(),
        report.digest(),
        Ledger.of(List.copyOf(lines.values())).about(report.ledger().patient()));
  }
}
