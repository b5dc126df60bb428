package org.intercusp.exchange.courier;

import io.micrometer.core.instrument.Counter;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.TimeGauge;
import io.micrometer.core.instrument.Timer;
import io.micrometer.core.instrument.composite.CompositeMeterRegistry;
import java.time.Clock;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;

/**
 * What operators watch of each configured recipient, all from the start. The one tag is the
 * recipient's name in the configuration. Queue and age are the database's, the same in every
 * instance that shares it; the rest counts what this instance did since it started.
 */
public final class DeliveryMeters {

  private static final String PREFIX = "intercusp.deliveries.";
  private static final String TAG = "recipient";

  private record Counting(Timer attempts, Timer latency, Counter refusals) {}

  private final Map<String, Counting> counting = new HashMap<>();

  /** Meters of these recipients in a registry. */
  public DeliveryMeters(
      MeterRegistry registry, DataSource database, Recipients recipients, Clock clock) {
    Backlog backlog = new Backlog(database, clock);
    for (Recipient recipient : recipients.all()) {
      String name = recipient.name();
      queue(registry, backlog, name);
      counting.put(name, counting(registry, name));
    }
  }

  /** For a program that nobody watches. */
  static DeliveryMeters unwatched(DataSource database, Recipients recipients, Clock clock) {
    return new DeliveryMeters(new CompositeMeterRegistry(), database, recipients, clock);
  }

  private static void queue(MeterRegistry registry, Backlog backlog, String name) {
    Gauge.builder(PREFIX + "queued", backlog, one -> one.of(name).count())
        .description("Deliveries that are queued, under way or waiting to be tried again")
        .tag(TAG, name)
        .strongReference(true)
        .register(registry);
    TimeGauge.builder(
            PREFIX + "oldest",
            backlog,
            TimeUnit.MILLISECONDS,
            one -> one.of(name).oldest().toMillis())
        .description(
            "How long the oldest of them is to go already: since it was asked for, or since the"
                + " day it was kept for; 0 where there is none")
        .tag(TAG, name)
        .strongReference(true)
        .register(registry);
  }

  private static Counting counting(MeterRegistry registry, String name) {
    return new Counting(
        Timer.builder(PREFIX + "attempts")
            .description("Tries, and how long each took")
            .tag(TAG, name)
            .register(registry),
        Timer.builder(PREFIX + "latency")
            .description("Deliveries that arrived, and the time since each was asked for")
            .tag(TAG, name)
            .register(registry),
        Counter.builder(PREFIX + "refusals")
            .description("Tries that the recipient refused")
            .tag(TAG, name)
            .register(registry));
  }

  /**
   * A try came to its end and was written down.
   *
   * @param took how long the try took
   * @param age the time since the delivery was asked for
   */
  void ended(String recipient, DeliveryState state, Duration took, Duration age) {
    Counting meters = counting.get(recipient);
    if (meters == null) {
      return;
    }
    meters.attempts().record(took);
    if (state == DeliveryState.DELIVERED) {
      meters.latency().record(age);
    } else if (state == DeliveryState.REFUSED) {
      meters.refusals().increment();
    }
  }
}
