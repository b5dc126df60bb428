package org.intercusp.web.pages;

import java.time.temporal.ChronoUnit;
import java.util.List;
import org.intercusp.exchange.Attempt;
import org.intercusp.exchange.Delivery;
import org.intercusp.exchange.DeliveryState;

/**
 * A delivery in the words of a page.
 *
 * @param words what the recipient said at the last try, where it said anything
 */
public record DeliveryView(Delivery delivery, String words) {

  static DeliveryView of(Delivery delivery, List<Attempt> attempts) {
    String words = attempts.isEmpty() ? "" : attempts.get(attempts.size() - 1).words();
    return new DeliveryView(delivery, words);
  }

  public String state() {
    return delivery.state().code();
  }

  public String changed() {
    return delivery.changedAt().truncatedTo(ChronoUnit.SECONDS).toString();
  }

  /** Whether a person may ask for another try. */
  public boolean canBeRetried() {
    return delivery.state() != DeliveryState.DELIVERED
        && delivery.state() != DeliveryState.UNDER_WAY;
  }
}
