package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Supplier;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.OutOfReach;
import org.intercusp.archive.DatabaseTrouble;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Outcomes;
import org.intercusp.conformance.Weight;
import org.intercusp.finding.FaultPlace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.TransientDataAccessException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestMethod;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.util.UriUtils;

/**
 * FHIR R4 over HTTP. Every answer, and every fault, is written here: a caller's fault with its
 * words, a fault of ours behind an incident id, under which its kind and place, never its data, are
 * logged.
 */
@RestController
class FhirDoor {

  private static final Logger LOG = LoggerFactory.getLogger(FhirDoor.class);
  private static final String ROOT = "/fhir";

  private final Rendering rendering;
  private final Outcomes outcomes;
  private final Statement statement;
  private final Reading reading;
  private final Searching searching;
  private final TrailReading trail;
  private final BundleIntake intake;
  private final ValidateOperation validate;
  private final SummaryOperation summary;
  private final ExportOperation export;
  private final CurrentCaller callers;

  FhirDoor(
      Rendering rendering,
      Outcomes outcomes,
      Statement statement,
      Reading reading,
      Searching searching,
      TrailReading trail,
      BundleIntake intake,
      ValidateOperation validate,
      SummaryOperation summary,
      ExportOperation export,
      CurrentCaller callers) {
    this.rendering = rendering;
    this.outcomes = outcomes;
    this.statement = statement;
    this.reading = reading;
    this.searching = searching;
    this.trail = trail;
    this.intake = intake;
    this.validate = validate;
    this.summary = summary;
    this.export = export;
    this.callers = callers;
  }

  @RequestMapping({ROOT, ROOT + "/", ROOT + "/**"})
  ResponseEntity<byte[]> answer(HttpServletRequest request) {
    String base = base(request);
    Asked asked = Asked.plainly(base);
    try {
      asked = Asked.of(request, base);
      callers.visit().seeks(Links.written(path(request), request));
      return answer(Route.of(request.getMethod(), path(request)), asked, request);
    } catch (Fault fault) {
      return rendering.fault(asked, fault);
    } catch (OutOfReach e) {
      return rendering.fault(
          asked,
          Fault.of(Reason.FORBIDDEN, "The treatment is of a clinic that is not one of yours."));
    } catch (TransientDataAccessException e) {
      Fault busy = Fault.of(Reason.BUSY, "Others are at work here; try again.");
      return rendering.fault(asked, busy.with(HttpHeaders.RETRY_AFTER, "1"));
    } catch (RuntimeException | IOException e) {
      return rendering.fault(asked, hidden(e));
    }
  }

  /** What may be asked of a path, which the framework would answer with every method there is. */
  @RequestMapping(
      path = {ROOT, ROOT + "/", ROOT + "/**"},
      method = RequestMethod.OPTIONS)
  ResponseEntity<byte[]> options(HttpServletRequest request) {
    try {
      Set<String> allowed = new TreeSet<>(Route.methods(path(request)));
      allowed.add("OPTIONS");
      return ResponseEntity.noContent()
          .header(HttpHeaders.ALLOW, String.join(", ", allowed))
          .build();
    } catch (Fault fault) {
      return rendering.fault(Asked.plainly(base(request)), fault);
    }
  }

  private ResponseEntity<byte[]> answer(Route.Call call, Asked asked, HttpServletRequest request)
      throws IOException {
    return switch (call.route()) {
      case METADATA -> statement(asked);
      case TRAIL_READ -> trail.read(call, asked, request);
      case TRAIL_SEARCH -> rendering.answer(trail.search(asked), asked);
      case TRAIL_SEARCH_BY_FORM ->
          rendering.answer(byForm(request, () -> trail.search(asked)), asked);
      case READ -> reading.read(call, asked, request);
      case VREAD -> reading.vread(call, asked, request);
      case SYSTEM_HISTORY -> rendering.answer(reading.history(null, null, asked), asked);
      case TYPE_HISTORY -> rendering.answer(reading.history(call.type(), null, asked), asked);
      case INSTANCE_HISTORY ->
          rendering.answer(reading.history(call.type(), call.id(), asked), asked);
      case SEARCH -> rendering.answer(searching.search(call.type(), asked), asked);
      case SEARCH_BY_FORM ->
          rendering.answer(byForm(request, () -> searching.search(call.type(), asked)), asked);
      case TRANSACTION -> transaction(asked, request);
      case VALIDATE -> judged(validate.judge(Incoming.of(request), null, asked), asked);
      case VALIDATE_TYPE -> judged(validate.judge(Incoming.of(request), call.type(), asked), asked);
      case SUMMARY -> rendering.answer(summary.summary(call.id(), asked, null), asked);
      case SUMMARY_BY_POST ->
          rendering.answer(summary.summary(call.id(), asked, Incoming.of(request)), asked);
      case EXPORT -> export.begin(asked, request, false);
      case EXPORT_OF_PATIENTS -> export.begin(asked, request, true);
      case EXPORT_STATUS -> export.status(call.id(), asked);
      case EXPORT_CANCEL -> export.cancel(call.id(), asked);
    };
  }

  private ResponseEntity<byte[]> statement(Asked asked) {
    // There is one statement, whatever mode is asked for, as FHIR R4, 3.1.0.11, lets a server do.
    Reading.mustKnow(asked, Set.of("mode"));
    return rendering.answer(statement.instance(asked.base()), asked);
  }

  private static Bundle byForm(HttpServletRequest request, Supplier<Bundle> search) {
    String type = String.valueOf(request.getContentType());
    if (!type.startsWith("application/x-www-form-urlencoded")) {
      throw Fault.of(
          Reason.MEDIA_TYPE, "A posted search is sent as application/x-www-form-urlencoded.");
    }
    return search.get();
  }

  private ResponseEntity<byte[]> transaction(Asked asked, HttpServletRequest request)
      throws IOException {
    Reading.mustKnow(asked, Set.of());
    return rendering.answer(intake.take(Incoming.of(request), asked), asked);
  }

  /** 200 with what was found, 400 when the document cannot be read at all. */
  private ResponseEntity<byte[]> judged(List<Issue> issues, Asked asked) {
    boolean unreadable = issues.stream().anyMatch(issue -> issue.weight() == Weight.FATAL);
    HttpStatus status = unreadable ? HttpStatus.BAD_REQUEST : HttpStatus.OK;
    return rendering.answer(status, new HttpHeaders(), outcomes.of(issues), asked);
  }

  private static Fault hidden(Exception fault) {
    String incident = UUID.randomUUID().toString();
    LOG.error("incident {}: {}", incident, FaultPlace.of(fault));
    if (DatabaseTrouble.in(fault).isPresent()) {
      // It may have kept what it could not answer for any more.
      String later =
          "The database is away or has no room: try again later, and look first whether this was"
              + " kept. Incident ";
      return Fault.of(Reason.BUSY, later + incident + ".").with(HttpHeaders.RETRY_AFTER, "30");
    }
    return Fault.of(
        Reason.FAILED, "The service failed; nothing was kept. Incident " + incident + ".");
  }

  static String base(HttpServletRequest request) {
    String url = request.getRequestURL().toString();
    return url.substring(0, url.length() - request.getRequestURI().length()) + ROOT;
  }

  /** Below the base, without a slash at either end. */
  private static String path(HttpServletRequest request) {
    String raw = request.getRequestURI().substring(ROOT.length());
    try {
      return UriUtils.decode(raw, StandardCharsets.UTF_8)
          .replaceFirst("^/", "")
          .replaceFirst("/$", "");
    } catch (IllegalArgumentException e) {
      throw Fault.of(Reason.NOT_HERE, "This path is not written as a URL writes one.");
    }
  }
}
