package org.intercusp.web.pages;

import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.records.RecordsClient.Reachability;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** Deliveries with what the recipients said of them, and the recipients themselves. */
@Controller
class DeliveryPages {

  /** Deliveries on the page; common practice, no source. */
  private static final int LENGTH = 50;

  private final Deliveries deliveries;
  private final Recipients recipients;
  private final RecordsClient client;

  DeliveryPages(Deliveries deliveries, Recipients recipients, RecordsClient client) {
    this.deliveries = deliveries;
    this.recipients = recipients;
    this.client = client;
  }

  /** A recipient and whether it answers now. */
  public record Reached(Recipient recipient, Reachability answer) {}

  @GetMapping(path = "/deliveries", produces = MediaType.TEXT_HTML_VALUE)
  String deliveries(
      @RequestParam(defaultValue = "1") String page,
      @RequestParam(defaultValue = "") String done,
      Model model) {
    int number = page.matches("[1-9][0-9]{0,5}") ? Integer.parseInt(page) : 1;
    List<Delivery> found = deliveries.newest((number - 1) * LENGTH, LENGTH + 1);
    List<DeliveryView> views =
        found.stream()
            .limit(LENGTH)
            .map(
                delivery ->
                    DeliveryView.of(delivery, deliveries.attempts(delivery.id()), recipients))
            .toList();
    model.addAttribute("deliveries", views);
    model.addAttribute("number", number);
    model.addAttribute("more", found.size() > LENGTH);
    model.addAttribute("notices", Notice.of(done));
    return "deliveries";
  }

  /** One delivery with every try and what the recipient said and holds. */
  @GetMapping(path = "/deliveries/{id}", produces = MediaType.TEXT_HTML_VALUE)
  String delivery(
      @PathVariable String id,
      @RequestParam(defaultValue = "") String done,
      Model model,
      HttpServletResponse response) {
    Optional<Delivery> found = deliveries.find(id);
    if (found.isEmpty()) {
      response.setStatus(HttpStatus.NOT_FOUND.value());
      model.addAttribute("words", "There is no such delivery.");
      return "fault";
    }
    List<Attempt> attempts = deliveries.attempts(id);
    model.addAttribute("view", DeliveryView.of(found.get(), attempts, recipients));
    model.addAttribute("attempts", attempts.stream().map(AttemptView::of).toList());
    model.addAttribute("notices", Notice.of(done));
    return "delivery";
  }

  @PostMapping("/pages/deliveries/{id}/retry")
  String retry(@PathVariable String id, Model model, HttpServletResponse response) {
    if (deliveries.retry(id).isEmpty()) {
      response.setStatus(HttpStatus.NOT_FOUND.value());
      model.addAttribute("words", "There is no such delivery.");
      return "fault";
    }
    return "redirect:" + Place.of("deliveries", id).with("done", "retried");
  }

  @GetMapping(path = "/recipients", produces = MediaType.TEXT_HTML_VALUE)
  String recipients(Model model) {
    List<Recipient> all = recipients.all();
    List<Reachability> asked = client.reach(all.stream().map(Recipient::target).toList());
    model.addAttribute(
        "recipients",
        IntStream.range(0, all.size())
            .mapToObj(i -> new Reached(all.get(i), asked.get(i)))
            .toList());
    return "recipients";
  }
}
