package org.intercusp.exchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.archive.TreatmentKey;

/**
 * What a recipient who was given a treatment is still told once consent does not cover it any more:
 * the consent as it stands now, and nothing else of the record.
 */
final class Notice {

  /** What is said of the delivery. */
  static final String TOLD = "Told that consent has ended; nothing else was sent";

  private static final Set<String> TYPES = Set.of("Consent", "Organization");

  private Notice() {}

  /**
   * The transaction that tells it, from that of the whole treatment. The patient is named by the id
   * on the recipient's server; the clinic is in it as who says so.
   *
   * @return empty where the recipient was not given consent or patient before
   */
  static Optional<Bundle> of(Bundle whole, TreatmentKey key, Ledger ledger) {
    Optional<String> patient =
        ledger.lines().stream()
            .filter(line -> line.type().equals("Patient") && !line.id().isEmpty())
            .map(Ledger.Line::id)
            .findFirst();
    boolean given = ledger.lines().stream().anyMatch(line -> line.type().equals("Consent"));
    if (patient.isEmpty() || !given) {
      return Optional.empty();
    }
    Bundle notice = new Bundle().setType(BundleType.TRANSACTION);
    for (BundleEntryComponent entry : whole.getEntry()) {
      if (entry.getResource() instanceof Consent consent) {
        Consent told = consent.copy();
        told.setPatient(new Reference("Patient/" + patient.get()));
        notice.addEntry(entry.copy().setResource(told));
      } else if (entry.getResource() instanceof Organization organization
          && isClinic(organization, key)) {
        notice.addEntry(entry.copy());
      }
    }
    return notice.hasEntry() ? Optional.of(notice) : Optional.empty();
  }

  private static boolean isClinic(Organization organization, TreatmentKey key) {
    return organization.getIdentifier().stream()
        .anyMatch(
            one ->
                key.clinic().system().equals(one.getSystem())
                    && key.clinic().value().equals(one.getValue()));
  }

  /** What is remembered of the resources of a notice: else the rest would count as gone. */
  static Ledger about(Ledger ledger) {
    return Ledger.of(
        ledger.lines().stream().filter(line -> line.type().equals("Consent")).toList());
  }

  /** The report with all that is remembered of the treatment, the notice's part as it is now. */
  static DeliveryReport remembering(Ledger before, DeliveryReport report) {
    Map<String, Ledger.Line> lines = new LinkedHashMap<>();
    List<Ledger.Line> all = new ArrayList<>(before.lines());
    report.ledger().lines().stream()
        .filter(line -> TYPES.contains(line.type()))
        .forEach(all::add);
    all.forEach(line -> lines.put(line.type() + "?" + line.token().search(), line));
    return new DeliveryReport(
        report.server(),
        report.way(),
        report.entries(),
        report.differences(),
        report.duplicates(),
        report.digest(),
        Ledger.of(List.copyOf(lines.values())));
  }
}
