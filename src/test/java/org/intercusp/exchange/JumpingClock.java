package org.intercusp.exchange;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A clock that somebody sets. */
public final class JumpingClock extends Clock {

  private volatile Duration offset = Duration.ZERO;

  /** From now on it is so far from the true time. */
  public void jump(Duration to) {
    offset = to;
  }

  @Override
  public Instant instant() {
    return Instant.now().plus(offset);
  }

  @Override
  public ZoneId getZone() {
    return ZoneOffset.UTC;
  }

  @Override
  public Clock withZone(ZoneId zone) {
    throw new UnsupportedOperationException("UTC only");
  }
}
