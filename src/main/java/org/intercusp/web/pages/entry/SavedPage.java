package org.intercusp.web.pages.entry;

import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.finding.Severity;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;

/** What stands in the record after an entry was saved, and where it went by itself. */
@Controller
class SavedPage {

  private final Intake intake;
  private final Lookup lookup;
  private final Deliveries deliveries;
  private final Recipients recipients;

  SavedPage(Intake intake, Lookup lookup, Deliveries deliveries, Recipients recipients) {
    this.intake = intake;
    this.lookup = lookup;
    this.deliveries = deliveries;
    this.recipients = recipients;
  }

  /** A recipient and what became of the version for it. */
  public record Gone(String title, String state) {}

  @GetMapping(path = "/treatments/{id}/saved", produces = MediaType.TEXT_HTML_VALUE)
  String saved(
      @PathVariable String id,
      @RequestParam String entry,
      @RequestParam @Nullable String clinic,
      Model model) {
    StoredTreatment stored = lookup.current(id, clinic);
    Treatment treatment = intake.treatment(stored);
    Examination examination = intake.examine(treatment);
    List<Judged> about =
        examination.findings().stream()
            .filter(judged -> judged.finding().subject().equals(entry))
            .toList();
    boolean harm =
        about.stream().anyMatch(judged -> judged.finding().severity() == Severity.URGENT);
    model.addAttribute("who", EntryPages.who(treatment));
    model.addAttribute("id", id);
    model.addAttribute("clinic", EntryPages.clinic(stored));
    model.addAttribute("entry", entry);
    model.addAttribute("version", stored.version());
    model.addAttribute("scripted", true);
    model.addAttribute(
        "findings", about.stream().map(judged -> Told.of(judged.finding())).toList());
    model.addAttribute("harm", harm);
    model.addAttribute("gone", harm ? gone(stored) : List.of());
    return "entry-saved";
  }

  private List<Gone> gone(StoredTreatment stored) {
    List<Delivery> all =
        deliveries.of(stored.key()).stream()
            .filter(delivery -> delivery.version() == stored.version())
            .toList();
    return recipients.all().stream().map(recipient -> gone(recipient, all)).toList();
  }

  private static Gone gone(Recipient recipient, List<Delivery> all) {
    return all.stream()
        .filter(delivery -> delivery.recipient().equals(recipient.name()))
        .findFirst()
        .map(delivery -> new Gone(recipient.title(), delivery.state().code().replace('-', ' ')))
        .orElseGet(
            () ->
                new Gone(
                    recipient.title(),
                    "not sent: consent does not cover it, or an error nobody accepted stops it"));
  }
}
