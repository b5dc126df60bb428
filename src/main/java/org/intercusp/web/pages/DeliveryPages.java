package org.intercusp.web.pages;

import java.util.List;
import org.intercusp.exchange.Deliveries;
import org.intercusp.exchange.Recipient;
import org.intercusp.exchange.Recipients;
import org.intercusp.exchange.RecordsClient;
import org.intercusp.exchange.RecordsClient.Reachability;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;

/** Deliveries with what the recipients said of them, and the recipients themselves. */
@Controller
class DeliveryPages {

  /** Deliveries on the page; common practice, no source. */
  private static final int LENGTH = 100;

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
  String deliveries(Model model) {
    List<DeliveryView> views =
        deliveries.newest(0, LENGTH).stream()
            .map(delivery -> DeliveryView.of(delivery, deliveries.attempts(delivery.id())))
            .toList();
    model.addAttribute("deliveries", views);
    return "deliveries";
  }

  @PostMapping("/pages/deliveries/{id}/retry")
  String retry(@PathVariable String id) {
    deliveries.retry(id);
    return "redirect:/deliveries";
  }

  @GetMapping(path = "/recipients", produces = MediaType.TEXT_HTML_VALUE)
  String recipients(Model model) {
    model.addAttribute(
        "recipients",
        recipients.all().stream()
            .map(recipient -> new Reached(recipient, client.reach(recipient.target())))
            .toList());
    return "recipients";
  }
}
