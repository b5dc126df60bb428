package org.intercusp.web.pages;

import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.exchange.proposal.Proposal;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposals;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** What recipients' people changed, beside what the file says now. */
@Controller
class ProposalPages {

  private static final String ONE = "/pages/treatments/{id}/proposals/{number}";

  private final Lookup lookup;
  private final Proposals proposals;
  private final Recipients recipients;
  private final Intake intake;

  ProposalPages(Lookup lookup, Proposals proposals, Recipients recipients, Intake intake) {
    this.lookup = lookup;
    this.proposals = proposals;
    this.recipients = recipients;
    this.intake = intake;
  }

  @GetMapping(path = "/treatments/{id}/proposals", produces = MediaType.TEXT_HTML_VALUE)
  String list(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam(defaultValue = "") String done,
      Model model) {
    return fill(model, lookup.current(id, clinic), Notice.of(done), Map.of());
  }

  @PostMapping(ONE + "/accept")
  String accept(
      @PathVariable String id,
      @PathVariable int number,
      @RequestParam @Nullable String clinic,
      @RequestParam int version,
      @RequestParam Map<String, String> typed,
      Model model,
      HttpServletResponse response) {
    StoredTreatment current = lookup.current(id, clinic);
    ObjectNode given = given(typed, "given." + number + ".");
    Decision decision = proposals.accept(current.key(), number, version, given);
    return decided(decision, "taken", id, clinic, typed, model, response);
  }

  @PostMapping(ONE + "/decline")
  String decline(
      @PathVariable String id,
      @PathVariable int number,
      @RequestParam @Nullable String clinic,
      Model model,
      HttpServletResponse response) {
    StoredTreatment current = lookup.current(id, clinic);
    Decision decision = proposals.decline(current.key(), number);
    return decided(decision, "declined", id, clinic, Map.of(), model, response);
  }

  /** What was typed, as members; what is no number is left out, and missed by the reader. */
  private static ObjectNode given(Map<String, String> typed, String before) {
    ObjectNode given = JsonNodeFactory.instance.objectNode();
    typed.forEach(
        (name, value) -> {
          String plain = value.strip().replace(',', '.');
          if (name.startsWith(before) && plain.matches("-?[0-9]{1,4}(\\.[0-9]{1,4})?")) {
            String[] steps = name.substring(before.length()).split("/", -1);
            ObjectNode at = given;
            for (int i = 0; i + 1 < steps.length; i++) {
              at = at.withObjectProperty(steps[i]);
            }
            at.put(steps[steps.length - 1], new BigDecimal(plain));
          }
        });
    return given;
  }

  private String decided(
      Decision decision,
      String done,
      String id,
      @Nullable String clinic,
      Map<String, String> typed,
      Model model,
      HttpServletResponse response) {
    StoredTreatment newest = lookup.current(id, clinic);
    if (decision instanceof Decision.Done decided) {
      return "redirect:"
          + Place.of("treatments", id, "proposals")
              .with("clinic", lookup.clinicWhereSeveral(newest.key()))
              .with("done", decided.proposal().kind() == Kind.DELETED ? done + "-deleted" : done);
    }
    HttpStatus status =
        decision instanceof Decision.Absent
            ? HttpStatus.NOT_FOUND
            : decision instanceof Decision.Unreadable
                ? HttpStatus.UNPROCESSABLE_CONTENT
                : HttpStatus.CONFLICT;
    response.setStatus(status.value());
    return fill(model, newest, List.of(notice(decision)), typed);
  }

  private static Notice notice(Decision decision) {
    if (decision instanceof Decision.Unreadable unreadable) {
      return Notice.stop(
          "Not accepted: with this change the file can't be read",
          unreadable.faults().stream()
              .map(each -> new Notice.Point(each.message() + " " + each.remedy(), ""))
              .toList());
    }
    if (decision instanceof Decision.Stale) {
      return Notice.stop(
          "Somebody stored another version while you had this page open. Nothing was changed by"
              + " you: below it is held against the newest version. Look again before you go on.");
    }
    if (decision instanceof Decision.Closed closed) {
      return Notice.stop("It is " + closed.proposal().state().code() + " already.");
    }
    return decision instanceof Decision.Absent
        ? Notice.stop("There is no such proposal.")
        : Notice.stop("The place that it is about is no longer in the treatment file.");
  }

  private String fill(
      Model model, StoredTreatment current, List<Notice> notices, Map<String, String> typed) {
    Treatment treatment = intake.treatment(current);
    List<ProposalView> views =
        proposals.of(current.key()).stream()
            .map(one -> ProposalView.of(one, title(one), current, proposals, intake))
            .toList();
    String clinic = lookup.clinicWhereSeveral(current.key());
    model.addAttribute("open", views.stream().filter(ProposalView::open).toList());
    model.addAttribute("closed", views.stream().filter(one -> !one.open()).toList());
    model.addAttribute("notices", notices);
    model.addAttribute("typed", typed);
    model.addAttribute("version", current.version());
    model.addAttribute("id", treatment.id());
    model.addAttribute("query", Place.of("x").with("clinic", clinic).toString().substring(2));
    model.addAttribute("name", treatment.patient().name());
    model.addAttribute("place", Place.of("treatments", treatment.id()).with("clinic", clinic));
    return "proposals";
  }

  private String title(Proposal one) {
    return recipients.named(one.recipient()).map(Recipient::title).orElse(one.recipient());
  }
}
