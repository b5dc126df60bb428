package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.records.DeliveryResult.Failed;
import org.intercusp.exchange.wire.Difficulty;
import org.intercusp.exchange.wire.Target;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a server can do wrong, and what is made of it. */
class RecordsClientTest {

  private static final Bundle BUNDLE = Parcels.bundle(Parcels.unheardOf());
  private static final String STATEMENT =
      "{\"resourceType\":\"CapabilityStatement\",\"status\":\"active\",\"kind\":\"instance\","
          + "\"fhirVersion\":\"%s\",\"format\":[\"json\"],\"rest\":[{\"mode\":\"server\","
          + "\"interaction\":[{\"code\":\"transaction\"}]}]}";
  private static final String R4_STATEMENT = STATEMENT.formatted("4.0.1");
  private static final String NOTHING = "{\"resourceType\":\"Bundle\",\"type\":\"searchset\"}";

  private final FaultyServer server = new FaultyServer(null);
  private final RecordsClient client = Clients.within(Duration.ofSeconds(20));

  @AfterEach
  void end() {
    server.close();
  }

  @Test
  void down() {
    Target target = server.target();
    server.close();

    Failed failed = failed(client.deliver(target, BUNDLE.copy(), Ledger.NONE));

    assertThat(failed.difficulty()).isEqualTo(Difficulty.DOWN);
    assertThat(failed.reason()).contains("127.0.0.1").doesNotContain("Exception");
    assertThat(client.reach(target).reached()).isFalse();
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void slowWithHeadersOrBody(boolean headersCome) throws Exception {
    try (java.net.ServerSocket socket =
        new java.net.ServerSocket(0, 5, java.net.InetAddress.getLoopbackAddress())) {
      Thread stalling =
          new Thread(
              () -> {
                try {
                  while (true) {
                    java.net.Socket one = socket.accept();
                    if (headersCome) {
                      one.getOutputStream()
                          .write(
                              "HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{"
                                  .getBytes(StandardCharsets.US_ASCII));
                      one.getOutputStream().flush();
                    }
                  }
                } catch (java.io.IOException e) {
                  return;
                }
              });
      stalling.setDaemon(true);
      stalling.start();
      Target target = Target.of(URI.create("http://127.0.0.1:" + socket.getLocalPort() + "/fhir"));
      long begin = System.nanoTime();

      Failed failed =
          failed(
              Clients.within(Duration.ofMillis(700)).deliver(target, BUNDLE.copy(), Ledger.NONE));

      assertThat(failed.difficulty()).isEqualTo(Difficulty.SLOW);
      assertThat(Duration.ofNanos(System.nanoTime() - begin)).isLessThan(Duration.ofSeconds(20));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "200, NOT_FHIR",
    "404, REFUSED",
    "401, REFUSED",
    "302, ELSEWHERE",
    "500, FAILED",
    "503, BUSY"
  })
  void answersAWebPage(int status, Difficulty expected) {
    server.always(
        one -> true,
        (one, real) ->
            Said.of(status, "text/html", "<html>Sign in</html>")
                .with("Location", "http://127.0.0.1:1/elsewhere"));

    Failed failed = failed(client.deliver(server.target(), BUNDLE.copy(), Ledger.NONE));

    assertThat(failed.difficulty()).isEqualTo(expected);
    assertThat(failed.reason()).contains(Integer.toString(status));
    assertThat(server.asked()).hasSize(expected.isPassing() ? 4 : 1);
    assertThat(server.writes()).isZero();
  }

  @Test
  void refusesAndKeepsTheServersWords() {
    server
        .always(
            one -> one.isMetadata(), (one, real) -> Said.of(200, FaultyServer.FHIR, R4_STATEMENT))
        .always(one -> !one.isWrite(), (one, real) -> Said.of(200, FaultyServer.FHIR, NOTHING))
        .always(
            one -> one.isWrite(),
            (one, real) ->
                Said.of(
                    422,
                    FaultyServer.FHIR,
                    "{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\","
                        + "\"code\":\"invalid\",\"diagnostics\":\"Goal.target is not for us\","
                        + "\"expression\":[\"Bundle.entry[3]\"]}]}"));

    Failed failed = failed(client.deliver(server.target(), BUNDLE.copy(), Ledger.NONE));

    assertThat(failed.difficulty()).isEqualTo(Difficulty.REFUSED);
    assertThat(failed.status()).isEqualTo(422);
    assertThat(failed.words()).isEqualTo("error: Goal.target is not for us (Bundle.entry[3])");
    assertThat(server.writes()).as("never tried again").isEqualTo(1);
  }

  @Test
  void theServersWordsAreCutBetweenCharacters() {
    // Begins with "error: ", so the 2,000th place is the first half of the last character.
    String words = "x".repeat(1_992) + "\uD83D\uDE00 and more";
    server
        .always(
            one -> one.isMetadata(), (one, real) -> Said.of(200, FaultyServer.FHIR, R4_STATEMENT))
        .always(
            one -> true,
            (one, real) ->
                Said.of(
                    422,
                    FaultyServer.FHIR,
                    "{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\","
                        + "\"code\":\"invalid\",\"diagnostics\":\""
                        + words
                        + "\"}]}"));

    Failed failed = failed(client.deliver(server.target(), BUNDLE.copy(), Ledger.NONE));

    assertThat(failed.words()).startsWith("error: xxx").endsWith("xxx...");
    assertThat(new String(failed.words().getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8))
        .as("half a character has no UTF-8")
        .isEqualTo(failed.words());
  }

  @Test
  void speaksAnotherVersion() {
    server.always(
        one -> true, (one, real) -> Said.of(200, FaultyServer.FHIR, STATEMENT.formatted("3.0.2")));

    Failed failed = failed(client.deliver(server.target(), BUNDLE.copy(), Ledger.NONE));

    assertThat(failed.difficulty()).isEqualTo(Difficulty.UNSUITABLE);
    assertThat(failed.reason()).contains("3.0.2");
  }

  @Test
  void saysTooMuch() throws Exception {
    String long_ = "{\"x\":\"" + "y".repeat(3_000_000) + "\"}";
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(packed)) {
      gzip.write(long_.getBytes(StandardCharsets.UTF_8));
    }
    server
        .fault(1, one -> true, (one, real) -> Said.of(200, FaultyServer.FHIR, long_))
        .fault(
            1,
            one -> true,
            (one, real) ->
                new Said(
                    200,
                    Map.of("Content-Type", FaultyServer.FHIR, "Content-Encoding", "gzip"),
                    packed.toByteArray()))
        .fault(
            1,
            one -> true,
            (one, real) ->
                Said.of(
                    200,
                    FaultyServer.FHIR,
                    R4_STATEMENT.replace("4.0.1\"", "4.0.1\",\"x\":1e1000000")));

    for (int i = 0; i < 3; i++) {
      Failed failed = failed(client.deliver(server.target(), BUNDLE.copy(), Ledger.NONE));
      assertThat(failed.difficulty()).isEqualTo(Difficulty.UNACCEPTABLE);
    }
  }

  @Test
  void pointsElsewhereForTheNextPage() {
    FaultyServer other = new FaultyServer(null);
    server
        .always(
            one -> one.isMetadata(), (one, real) -> Said.of(200, FaultyServer.FHIR, R4_STATEMENT))
        .always(
            one -> true,
            (one, real) ->
                Said.of(
                    200,
                    FaultyServer.FHIR,
                    NOTHING.replace(
                        "}",
                        ",\"link\":[{\"relation\":\"next\",\"url\":\""
                            + other.baseUrl()
                            + "?p=2\"}]}")));

    FetchResult fetched = client.fetch(server.target(), "https://harbour-lane.example/p", "P1");
    Failed failed = failed(client.deliver(server.target(), BUNDLE.copy(), Ledger.NONE));

    assertThat(((FetchResult.Failed) fetched).difficulty()).isEqualTo(Difficulty.ELSEWHERE);
    assertThat(failed.difficulty()).isEqualTo(Difficulty.ELSEWHERE);
    assertThat(other.asked()).isEmpty();
    other.close();
  }

  @Test
  void asksForALongerWaitThanACallHas() {
    server.always(
        one -> true,
        (one, real) -> Said.of(429, "text/plain", "not so fast").with("Retry-After", "120"));

    Failed failed = failed(client.deliver(server.target(), BUNDLE.copy(), Ledger.NONE));

    assertThat(failed.difficulty()).isEqualTo(Difficulty.BUSY);
    assertThat(failed.retryAfter()).isEqualTo(Duration.ofSeconds(120));
    assertThat(failed.words()).isEqualTo("not so fast");
    assertThat(server.asked()).hasSize(1);
  }

  @Test
  void sendsNoPlainTokenToAnotherMachine() {
    assertThatThrownBy(() -> new Target(URI.create("http://records.example/fhir"), "t"))
        .isInstanceOf(IllegalArgumentException.class);
    assertThat(new Target(URI.create("https://records.example/fhir/"), "secret"))
        .hasToString("https://records.example/fhir");
    assertThatThrownBy(() -> Target.of(URI.create("ftp://records.example/")))
        .isInstanceOf(IllegalArgumentException.class);
  }

  private static Failed failed(DeliveryResult result) {
    assertThat(result).isInstanceOf(Failed.class);
    return (Failed) result;
  }
}
