package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.FaultyServer.Said;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

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

  private Map<String, Double> series() {
    Map<String, Double> found = new HashMap<>();
    Matcher lines = SERIES.matcher(meters.scrape());
    while (lines.find()) {
      found.put(lines.group(1) + " " + lines.group(2), Double.valueOf(lines.group(3)));
    }
    return found;
  }
}
