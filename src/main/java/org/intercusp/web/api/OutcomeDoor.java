package org.intercusp.web.api;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.net.URI;
import org.intercusp.access.CurrentCaller;
import org.intercusp.registry.intake.LoadStatus;
import org.intercusp.registry.intake.OutcomeInbox;
import org.intercusp.registry.intake.OutcomeInbox.Receipt;
import org.intercusp.registry.intake.Senders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Outcomes submitted to the registry: NDJSON in, a place to look at in answer. A record with the
 * same submitter and submission id again changes nothing; a corrected one replaces it.
 */
@RestController
class OutcomeDoor {

  /** Refusals told at once; common practice, no source. */
  private static final int REFUSALS = 1000;

  private final OutcomeInbox inbox;
  private final CurrentCaller callers;
  private final RegistryDeeds deeds;
  private final JsonMapper json = new JsonMapper();

  OutcomeDoor(OutcomeInbox inbox, CurrentCaller callers, RegistryDeeds deeds) {
    this.callers = callers;
    this.inbox = inbox;
    this.deeds = deeds;
  }

  @PostMapping(path = "/registry/outcomes", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> submit(HttpServletRequest request) throws IOException {
    Senders senders = senders();
    if (senders.isNobody()) {
      throw Problem.of(
          HttpStatus.FORBIDDEN, "You speak for no clinic, so nothing you submit could be taken.");
    }
    Receipt receipt = inbox.receive(request.getInputStream(), senders);
    if (receipt instanceof Receipt.TooLarge tooLarge) {
      deeds.refused("too large");
      throw Problem.of(
          HttpStatus.CONTENT_TOO_LARGE,
          "One submission has at most " + tooLarge.largest() + " bytes; nothing was kept.");
    }
    if (receipt instanceof Receipt.Full) {
      deeds.refused("too many wait");
      throw Problem.of(
          HttpStatus.SERVICE_UNAVAILABLE, "Too many submissions wait; send this one later.");
    }
    return status(((Receipt.Received) receipt).id(), HttpStatus.ACCEPTED);
  }

  private Senders senders() {
    return OutcomeSenders.of(callers.caller());
  }

  @GetMapping(path = "/registry/outcomes/{id}", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> status(@PathVariable String id) throws IOException {
    ResponseEntity<byte[]> status = status(id, HttpStatus.OK);
    deeds.looked(id);
    return status;
  }

  private ResponseEntity<byte[]> status(String id, HttpStatus answer) throws IOException {
    LoadStatus status =
        inbox
            .status(id, senders())
            .orElseThrow(() -> Problem.of(HttpStatus.NOT_FOUND, "There is no such submission."));
    ObjectNode node = status.json();
    ArrayNode refusals = node.putArray("refusals");
    for (String line : inbox.refusals(id, REFUSALS)) {
      refusals.add(json.readTree(line));
    }
    return ResponseEntity.status(answer)
        .location(URI.create("/registry/outcomes/" + id))
        .body(json.writeValueAsBytes(node));
  }
}
