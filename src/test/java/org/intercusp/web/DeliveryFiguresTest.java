package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.regex.Pattern;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;

/** The figures of deliveries as an operator's program reads them from the running service. */
class DeliveryFiguresTest extends GuardedServiceBase {

  private static final Pattern LABELLED =
      Pattern.compile("intercusp_deliveries_\\w+\\{recipient=\"(hospital|echo)\"} \\S+");

  @Test
  void areThereForEachRecipientAndSayNothingElse() throws Exception {
    mustBe(
        201, as(Program.B_FULL, "POST", "/treatments").json(GuardedService.ofB("COUNTED")).reply());
    mustBe(
        202,
        as(Program.B_FULL, "POST", "/treatments/COUNTED/deliveries")
            .json("{\"to\": \"echo\"}")
            .reply());
    Instant end = Instant.now().plus(Duration.ofMinutes(2));
    while (count("attempts_seconds_count{recipient=\"echo\"}") == 0) {
      assertThat(Instant.now()).isBefore(end);
      Thread.sleep(100);
    }

    List<String> lines = lines();

    assertThat(lines).hasSizeGreaterThanOrEqualTo(2 * 7).allMatch(LABELLED.asMatchPredicate());
    for (String name :
        List.of("queued", "oldest_seconds", "latency_seconds_sum", "refusals_total")) {
      assertThat(lines).anyMatch(line -> line.contains(name + "{recipient=\"hospital\"}"));
    }
    assertThat(String.join("\n", lines))
        .doesNotContain(GuardedService.CANARIES)
        .doesNotContain(EchoServer.WORD);
  }

  private double count(String series) throws IOException {
    return lines().stream()
        .filter(line -> line.startsWith("intercusp_deliveries_" + series))
        .mapToDouble(line -> Double.parseDouble(line.substring(line.lastIndexOf(' ') + 1)))
        .findFirst()
        .orElse(0);
  }

  private List<String> lines() throws IOException {
    return as(Program.OPERATOR, "GET", "/actuator/prometheus")
        .reply()
        .body()
        .lines()
        .filter(line -> line.startsWith("intercusp_deliveries"))
        .toList();
  }
}
