package org.intercusp.app.security;

import io.github.bucket4j.TimeMeter;
import java.time.Duration;

/** Time that stands still until it is told to go on: a slow machine gives nobody a request more. */
final class HandSetTime implements TimeMeter {

  private long now;

  void goOn(Duration time) {
    now += time.toNanos();
  }

  @Override
  public long currentTimeNanos() {
    return now;
  }

  @Override
  public boolean isWallClockBased() {
    return false;
  }
}
