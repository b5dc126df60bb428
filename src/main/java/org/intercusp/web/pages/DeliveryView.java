package org.intercusp.web.pages;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.jspecify.annotations.Nullable;

/**
 * A delivery in the words of a page.
 *
 * @param to what people call the recipient
 * @param words what the recipient said at the last try, where it said anything
 * @param place of the treatment's page
 */
public record DeliveryView(Delivery delivery, String to, String words, String place) {

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm 'UTC'").withZone(ZoneOffset.UTC);

  static DeliveryView of(Delivery delivery, List<Attempt> attempts, Recipients recipients) {
    String words = attempts.isEmpty() ? "" : attempts.get(attempts.size() - 1).words();
    String place =
        Place.of("treatments", delivery.treatment().treatment())
            .with("clinic", delivery.treatment().reached().written())
            .toString();
    String to =
        recipients.named(delivery.recipient()).map(Recipient::title).orElse(delivery.recipient());
    return new DeliveryView(delivery, to, words, place);
  }

  public String state() {
    return switch (delivery.state()) {
      case QUEUED -> "queued";
      case UNDER_WAY -> "being sent";
      case DELIVERED -> "delivered";
      case REFUSED -> "refused by the recipient";
      case WAITING -> "waiting for another try";
      case HELD -> "held: somebody must decide";
      case GIVEN_UP -> "given up";
    };
  }

  /** The style it is shown in. */
  public String style() {
    return switch (delivery.state()) {
      case DELIVERED -> "good";
      case REFUSED, HELD, GIVEN_UP -> "stuck";
      case QUEUED, UNDER_WAY, WAITING -> "going";
    };
  }

  public String changed() {
    return time(delivery.changedAt());
  }

  /** When it is tried next, where it is. */
  public @Nullable String due() {
    Instant due = delivery.dueAt();
    return due == null || delivery.state() != DeliveryState.WAITING ? null : time(due);
  }

  static String time(Instant instant) {
    return TIME.format(instant);
  }

  /** Whether a person may ask for another try. */
  public boolean canBeRetried() {
    return delivery.state() != DeliveryState.DELIVERED
        && delivery.state() != DeliveryState.UNDER_WAY;
  }
}
