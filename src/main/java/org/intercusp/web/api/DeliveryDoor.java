package org.intercusp.web.api;

import java.net.URI;
import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.RecordsClient;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Deliveries: asked for, looked at, tried again. */
@RestController
class DeliveryDoor {

  private final Deliveries deliveries;
  private final Recipients recipients;
  private final RecordsClient client;
  private final Lookup lookup;
  private final DeliveryAnswers answers;

  DeliveryDoor(
      Deliveries deliveries,
      Recipients recipients,
      RecordsClient client,
      Lookup lookup,
      DeliveryAnswers answers) {
    this.deliveries = deliveries;
    this.recipients = recipients;
    this.client = client;
    this.lookup = lookup;
    this.answers = answers;
  }

  @PostMapping(path = "/treatments/{id}/deliveries", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> deliver(
      @PathVariable String id, @RequestParam @Nullable String clinic, @RequestBody byte[] wish) {
    StoredTreatment stored = lookup.current(id, clinic);
    String to = DeliveryWish.read(wish).to();
    Queueing queueing = deliveries.queue(stored.key(), stored.version(), to);
    if (queueing instanceof Queueing.Queued queued) {
      return answer(HttpStatus.ACCEPTED, queued.delivery());
    }
    if (queueing instanceof Queueing.Existing existing) {
      return answer(HttpStatus.OK, existing.delivery());
    }
    if (queueing instanceof Queueing.Stopped stopped) {
      throw new Problem(
          HttpStatus.CONFLICT,
          "The treatment may not go to this recipient; nothing was queued.",
          stopped.findings());
    }
    throw Problem.of(
        HttpStatus.UNPROCESSABLE_CONTENT, "There is no recipient with this name; see /recipients.");
  }

  @GetMapping(path = "/treatments/{id}/deliveries", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> ofTreatment(
      @PathVariable String id, @RequestParam @Nullable String clinic) {
    List<Delivery> all = deliveries.of(lookup.current(id, clinic).key());
    return ResponseEntity.ok(answers.list(all));
  }

  @GetMapping(path = "/deliveries", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> newest(
      @RequestParam(defaultValue = "0") int offset, @RequestParam(defaultValue = "50") int count) {
    if (offset < 0 || count < 1 || count > Deliveries.LONGEST_LIST) {
      throw Problem.of(
          HttpStatus.BAD_REQUEST,
          "offset is not negative, count from 1 to " + Deliveries.LONGEST_LIST + ".");
    }
    return ResponseEntity.ok(answers.list(deliveries.newest(offset, count)));
  }

  @GetMapping(path = "/deliveries/{id}", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> one(@PathVariable String id) {
    Delivery delivery = deliveries.find(id).orElseThrow(DeliveryDoor::absent);
    return ResponseEntity.ok(answers.whole(delivery, deliveries.attempts(id)));
  }

  /** Tries one again that waits, was refused, is held or was given up. */
  @PostMapping(path = "/deliveries/{id}/retry", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> retry(@PathVariable String id) {
    Delivery delivery = deliveries.retry(id).orElseThrow(DeliveryDoor::absent);
    if (delivery.state() == DeliveryState.DELIVERED) {
      throw Problem.of(HttpStatus.CONFLICT, "It has been delivered; nothing is tried again.");
    }
    return answer(HttpStatus.ACCEPTED, delivery);
  }

  /** Who can be delivered to, and whether each answers now. */
  @GetMapping(path = "/recipients", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> recipients() {
    List<Recipient> all = recipients.all();
    return ResponseEntity.ok(
        answers.recipients(all, client.reach(all.stream().map(Recipient::target).toList())));
  }

  private ResponseEntity<byte[]> answer(HttpStatus status, Delivery delivery) {
    return ResponseEntity.status(status)
        .location(URI.create("/deliveries/" + delivery.id()))
        .body(answers.whole(delivery, deliveries.attempts(delivery.id())));
  }

  private static Problem absent() {
    return Problem.of(HttpStatus.NOT_FOUND, "There is no such delivery.");
  }
}
