package org.intercusp.web.pages;

import jakarta.servlet.http.HttpServletResponse;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Queueing;
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

/** One treatment: seen, its findings answered, sent. */
@Controller
class TreatmentPages {

  private static final String ROOT = "/pages/treatments/{id}";

  private final Lookup lookup;
  private final TreatmentSheet sheet;
  private final Acceptances acceptances;
  private final Deliveries deliveries;
  private final CurrentCaller callers;

  TreatmentPages(
      Lookup lookup,
      TreatmentSheet sheet,
      Acceptances acceptances,
      Deliveries deliveries,
      CurrentCaller callers) {
    this.lookup = lookup;
    this.sheet = sheet;
    this.acceptances = acceptances;
    this.deliveries = deliveries;
    this.callers = callers;
  }

  @GetMapping(path = "/treatments/{id}", produces = MediaType.TEXT_HTML_VALUE)
  String treatment(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam(defaultValue = "") String done,
      Model model) {
    return sheet.fill(
        model, lookup.current(id, clinic), Notice.of(done), AcceptanceForm.NONE, List.of());
  }

  @PostMapping(ROOT + "/acceptances")
  String accept(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      AcceptanceForm typed,
      Model model,
      HttpServletResponse response) {
    StoredTreatment current = lookup.current(id, clinic);
    Caller caller = callers.caller();
    // Whoever is logged in answers for it, and nobody else.
    AcceptanceForm form = caller.kind() == Caller.Kind.PERSON ? typed.by(caller.name()) : typed;
    Acceptances.Outcome outcome = acceptances.accept(current, form);
    if (outcome instanceof Acceptances.Outcome.Done) {
      return sheet.place(current, "accepted", "findings");
    }
    Failed failed = failed(outcome);
    response.setStatus(failed.status().value());
    StoredTreatment newest = lookup.current(id, clinic);
    return sheet.fill(model, newest, List.of(failed.notice()), form, failed.fields());
  }

  @PostMapping(ROOT + "/acceptances/withdraw")
  String withdraw(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam int version,
      @RequestParam int acceptance,
      Model model,
      HttpServletResponse response) {
    StoredTreatment current = lookup.current(id, clinic);
    Acceptances.Outcome outcome = acceptances.withdraw(current, version, acceptance);
    if (outcome instanceof Acceptances.Outcome.Done) {
      return sheet.place(current, "withdrawn", "findings");
    }
    return refused(model, response, failed(outcome), lookup.current(id, clinic));
  }

  @PostMapping(ROOT + "/deliveries")
  String send(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam int version,
      @RequestParam(defaultValue = "") String to,
      Model model,
      HttpServletResponse response) {
    StoredTreatment current = lookup.current(id, clinic);
    if (current.version() != version) {
      return refused(model, response, failed(new Acceptances.Outcome.Stale()), current);
    }
    Queueing queueing = deliveries.queue(current.key(), version, to);
    if (queueing instanceof Queueing.Queued) {
      return sheet.place(current, "queued", "deliveries");
    }
    if (queueing instanceof Queueing.Existing) {
      return sheet.place(current, "existing", "deliveries");
    }
    return refused(model, response, failed(queueing), current);
  }

  private String refused(
      Model model, HttpServletResponse response, Failed failed, StoredTreatment newest) {
    response.setStatus(failed.status().value());
    return sheet.fill(model, newest, List.of(failed.notice()), AcceptanceForm.NONE, List.of());
  }

  /** Why a form was not taken. */
  private record Failed(HttpStatus status, Notice notice, List<Acceptances.Field> fields) {}

  private static Failed failed(Acceptances.Outcome outcome) {
    if (outcome instanceof Acceptances.Outcome.Mistyped mistyped) {
      List<Notice.Point> points = new ArrayList<>();
      mistyped.fields().forEach(each -> points.add(new Notice.Point(each.words(), each.name())));
      return new Failed(
          HttpStatus.UNPROCESSABLE_CONTENT,
          Notice.stop("Not accepted yet: something is missing or can't be read", points),
          mistyped.fields());
    }
    if (outcome instanceof Acceptances.Outcome.Refused refused) {
      return new Failed(HttpStatus.CONFLICT, Notice.stop(refused.why()), List.of());
    }
    return new Failed(
        HttpStatus.CONFLICT,
        Notice.stop(
            "Somebody stored another version while you had this page open. Nothing was changed by"
                + " you and nothing is lost: below is the newest version, with what you typed. Look"
                + " again before you go on."),
        List.of());
  }

  private static Failed failed(Queueing queueing) {
    if (queueing instanceof Queueing.Stopped stopped) {
      List<Notice.Point> points =
          stopped.findings().stream()
              .map(each -> new Notice.Point(each.message() + " " + each.remedy(), ""))
              .toList();
      return new Failed(
          HttpStatus.CONFLICT,
          Notice.stop("Nothing was sent: this treatment may not go to this recipient", points),
          List.of());
    }
    return new Failed(
        HttpStatus.UNPROCESSABLE_CONTENT, Notice.stop("Choose one of the recipients."), List.of());
  }
}
