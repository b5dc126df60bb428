package org.intercusp.exchange.queue;

import java.util.Locale;

/** Where a delivery stands. */
public enum DeliveryState {
  /** Not tried yet. */
  QUEUED,
  /** Being sent at the moment. */
  UNDER_WAY,
  /** The recipient holds it. */
  DELIVERED,
  /** The recipient said no; its words are kept. Trying again needs a person. */
  REFUSED,
  /** It did not get through and will be tried again by itself. */
  WAITING,
  /** Something has to be decided by a person before it goes on. */
  HELD,
  /** Tried often enough, or overtaken by a newer version. */
  GIVEN_UP;

  /** As people and scripts write it: {@code under-way}. */
  public String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Reads what {@link #code} writes; anything else is refused. */
  public static DeliveryState of(String code) {
    return valueOf(code.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  /** Whether nothing more happens by itself. */
  public boolean isFinal() {
    return this == DELIVERED || this == REFUSED || this == HELD || this == GIVEN_UP;
  }
}
