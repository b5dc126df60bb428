package org.intercusp.web.pages;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.proposal.Proposals;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.rules.Examination;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.ui.Model;

/** Puts together the page of a treatment, also for a form that could not be taken. */
@Component
class TreatmentSheet {

  private final Intake intake;
  private final Lookup lookup;
  private final TreatmentArchive archive;
  private final Deliveries deliveries;
  private final Recipients recipients;
  private final Proposals proposals;
  private final Clock clock;

  TreatmentSheet(
      Intake intake,
      Lookup lookup,
      TreatmentArchive archive,
      Deliveries deliveries,
      Recipients recipients,
      Proposals proposals,
      Clock clock) {
    this.clock = clock;
    this.proposals = proposals;
    this.intake = intake;
    this.lookup = lookup;
    this.archive = archive;
    this.deliveries = deliveries;
    this.recipients = recipients;
  }

  /**
   * Fills the page.
   *
   * @param notices what the page says first
   * @param typed what stands in the form of one finding
   * @param faults of the fields of that form
   */
  String fill(
      Model model,
      StoredTreatment stored,
      List<Notice> notices,
      AcceptanceForm typed,
      List<Acceptances.Field> faults) {
    model.addAttribute("view", view(stored));
    model.addAttribute("notices", notices);
    model.addAttribute("typed", typed);
    model.addAttribute("faults", new FieldFaults(faults));
    return "treatment";
  }

  /** The faults of a form by field. */
  public record FieldFaults(List<Acceptances.Field> all) {

    /** What is wrong with a field; empty where nothing is. */
    public String of(String name) {
      return all.stream()
          .filter(each -> each.name().equals(name))
          .map(Acceptances.Field::words)
          .findFirst()
          .orElse("");
    }
  }

  private TreatmentView view(StoredTreatment stored) {
    Treatment treatment = intake.treatment(stored);
    Examination examination = intake.examine(treatment);
    LocalDate day = intake.day(treatment);
    String clinic = lookup.clinicWhereSeveral(stored.key());
    return new TreatmentView(
        treatment,
        examination,
        clinic,
        stored.version(),
        day,
        Late.said(treatment, LocalDate.now(clock)),
        FindingView.of(examination),
        NextVisit.of(treatment, examination),
        FigureGroup.of(treatment, examination.figures()),
        Pictures.of(treatment, examination),
        deliveries.of(stored.key()).stream()
            .map(one -> DeliveryView.of(one, deliveries.attempts(one.id()), recipients))
            .toList(),
        recipients.all(),
        proposals.of(stored.key()).stream().filter(one -> one.state() == State.OPEN).count(),
        archive.history(stored.key()).stream().map(one -> version(one, clinic)).toList());
  }

  private static TreatmentView.VersionView version(
      StoredTreatment stored, @Nullable String clinic) {
    String compare =
        stored.version() == 1
            ? null
            : Place.of("treatments", stored.key().treatment(), "compare")
                .with("from", "" + (stored.version() - 1))
                .with("to", "" + stored.version())
                .with("clinic", clinic)
                .toString();
    return new TreatmentView.VersionView(
        stored.version(), DeliveryView.time(stored.receivedAt()), compare);
  }

  /** Where the page stands, with what was done. */
  String place(StoredTreatment stored, String done, String anchor) {
    return "redirect:"
        + Place.of("treatments", stored.key().treatment())
            .with("clinic", lookup.clinicWhereSeveral(stored.key()))
            .with("done", done)
            .at(anchor);
  }
}
