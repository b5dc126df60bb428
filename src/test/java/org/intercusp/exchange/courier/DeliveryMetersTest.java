package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

/** The figures by recipient, as they are scraped, on both databases. */
class DeliveryMetersTest extends DeliveryRig {

  private static final Pattern SERIES =
      Pattern.compile("(?m)^intercusp_deliveries_(\\w+)\\{recipient=\"(\\w+)\"} (\\S+)$");

  @ParameterizedTest
  @MethodSource(DATABASES)
  void countsWhatBecameOfTriesAndWhatStillWaits(Databases kind) {
    new FakeRecords(hospital);
    referrer.fault(1, one -> true, (one, real) -> Said.of(403, "text/plain", "not you"));
    referrer.always(one -> true, (one, real) -> Said.nothing());
    Rig rig = new Rig(kind.fresh());
    rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    rig.start();
    rig.eventually(() -> series().get("latency_seconds_count hospital") == 1);
    String refused = rig.queued(rig.store(Parcels.unheardOf()), 1, "referrer");
    rig.await(refused, DeliveryState.REFUSED);
    String down = rig.queued(rig.store(Parcels.unheardOf()), 1, "referrer");
    rig.await(down, DeliveryState.WAITING);
    // One look at the queue serves for half a second.
    rig.pause(600);

    Map<String, Double> series = series();

    assertThat(series)
        .containsEntry("attempts_seconds_count hospital", 1.0)
        .containsEntry("refusals_total hospital", 0.0)
        .containsEntry("queued hospital", 0.0)
        .containsEntry("oldest_seconds hospital", 0.0)
        .containsEntry("latency_seconds_count referrer", 0.0)
        .containsEntry("refusals_total referrer", 1.0)
        .containsEntry("queued referrer", 1.0);
    assertThat(series.get("attempts_seconds_count referrer")).isGreaterThanOrEqualTo(2.0);
    assertThat(series.get("oldest_seconds referrer")).isBetween(0.5, 60.0);
    assertThat(series.get("latency_seconds_sum hospital"))
        .isGreaterThanOrEqualTo(series.get("attempts_seconds_sum hospital"));
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatIsKeptForALaterDayIsNotLateBeforeIt(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    ObjectNode file = Parcels.unheardOf();
    TreatmentKey key = rig.store(file);
    DeliveryRows rows = new DeliveryRows(rig.database, CurrentCaller.withoutLogin());
    String first = rig.queued(key, 1, "hospital");
    assertThat(oldest(rig, Instant.now().plusSeconds(3_600))).isGreaterThan(Duration.ofMinutes(59));
    LocalDate day = LocalDate.now(Clock.systemUTC()).plusDays(3);
    Instant begins = day.atStartOfDay(ZoneOffset.UTC).toInstant();
    ends.set(day);
    ((ObjectNode) file.at("/diagnosis")).put("overjet", 8);
    byte[] next = Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);
    Queueing notice =
        new StoringAndQueueing(rig.database, rig.archive, rig.deliveries)
            .replace(key, 1, next, List.of())
            .deliveries()
            .get(0);
    String id = ((Queueing.Queued) notice).delivery().id();
    rows.move(first, DeliveryState.HELD, "", Instant.now(), null);

    assertThat(oldest(rig, begins.minusSeconds(60))).isZero();
    assertThat(oldest(rig, begins.plusSeconds(600))).isEqualTo(Duration.ofMinutes(10));
    rows.move(id, DeliveryState.WAITING, "down", begins, begins.plusSeconds(900));
    assertThat(oldest(rig, begins.plusSeconds(600))).isEqualTo(Duration.ofMinutes(10));
    rows.move(id, DeliveryState.QUEUED, "not now", begins, begins.plusSeconds(86_400));
    assertThat(oldest(rig, begins.plusSeconds(600))).isZero();
  }

  private static Duration oldest(Rig rig, Instant now) {
    Backlog.Share share =
        new Backlog(rig.database, Clock.fixed(now, ZoneOffset.UTC)).of("hospital");
    assertThat(share.count()).isEqualTo(1);
    return share.oldest();
  }

  private Map<String, Double> series() {
    Map<String, Double> found = new HashMap<>();
    Matcher lines = SERIES.matcher(meters.scrape());
    while (lines.find()) {
      found.put(lines.group(1) + " " + lines.group(2), Double.valueOf(lines.group(3)));
    }
    return found;
  }
}
