package org.intercusp.exchange.wire;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.JumpingClock;
import org.intercusp.exchange.KeyFiles;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.authorization.Authorization;
import org.intercusp.exchange.authorization.SigningKeys;
import org.intercusp.exchange.records.DeliveryResult;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.RecordsClient;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What token endpoints say, and what is made of it. */
class TokenDeskTest {

  private static final String JSON = "application/json";

  @TempDir Path folder;
  private final FaultyServer server = new FaultyServer(null);
  private final JumpingClock clock = new JumpingClock();
  private final RecordsClient client = Clients.at(clock);
  private Target target;

  @BeforeEach
  void begin() throws Exception {
    SigningKeys keys =
        SigningKeys.read(KeyFiles.file(folder, KeyFiles.key("ES384", "k")), null, null);
    target =
        new Target(
            server.baseUrl(),
            new Authorization.Backend("us", null, keys, List.of("system/*.cruds")),
            null,
            Vicinity.ELSEWHERE_ONLY);
    finds("/token");
    new FakeRecords(server);
  }

  @AfterEach
  void end() {
    server.close();
  }

  /** From now on the server names this token endpoint. */
  private void finds(String endpoint) {
    server.first(
        one -> one.path().endsWith("/smart-configuration"),
        (one, real) -> Said.of(200, JSON, "{\"token_endpoint\":\"" + endpoint + "\"}"));
  }

  private void says(String endpoint, int status, String body) {
    server.first(one -> one.path().equals(endpoint), (one, real) -> Said.of(status, JSON, body));
  }

  private static String token(String type, long seconds) {
    return "{\"access_token\":\"abc\",\"token_type\":\"%s\",\"expires_in\":%d}"
        .formatted(type, seconds);
  }

  private long asked(String path) {
    return server.asked().stream().filter(one -> one.path().equals(path)).count();
  }

  private DeliveryResult.Failed failed() {
    return (DeliveryResult.Failed)
        client.deliver(target, Parcels.bundle(Parcels.unheardOf()), Ledger.NONE);
  }

  @Test
  void aTokenForADayIsAskedForAnewAfterAnHour() {
    says("/token", 200, token("bearer", 86_400));
    assertThat(client.reach(target).reached()).isTrue();
    clock.jump(Duration.ofMinutes(58));
    assertThat(client.reach(target).reached()).isTrue();
    assertThat(asked("/token")).isEqualTo(1);
    clock.jump(Duration.ofMinutes(60));
    assertThat(client.reach(target).reached()).isTrue();
    assertThat(asked("/token")).isEqualTo(2);
  }

  @Test
  void anEndpointThatMovedIsLookedForAgain() {
    says("/token", 200, token("bearer", 60));
    assertThat(client.reach(target).reached()).isTrue();
    says("/token", 404, "{}");
    says("/new-token", 200, token("bearer", 60));
    finds("/new-token");
    clock.jump(Duration.ofMinutes(2));
    assertThat(client.reach(target).reached()).isFalse();
    assertThat(client.reach(target).reached()).isTrue();
    assertThat(asked("/new-token")).isEqualTo(1);
  }

  @Test
  void whatQuotesAnAssertionIsNotRepeated() {
    says(
        "/token",
        400,
        "{\"error\":\"invalid_client\",\"error_description\":\"no good: eyJhbGciOiJFUzM4NCJ9\"}");
    DeliveryResult.Failed failed = failed();
    assertThat(failed.difficulty()).isEqualTo(Difficulty.REFUSED);
    assertThat(failed.words()).isEqualTo("invalid_client");
  }

  @Test
  void aBusyEndpointIsAskedAgainWhenItSays() {
    server.first(
        one -> one.path().equals("/token"),
        (one, real) -> Said.of(429, JSON, "{}").with("Retry-After", "600"));
    DeliveryResult.Failed failed = failed();
    assertThat(failed.difficulty()).isEqualTo(Difficulty.BUSY);
    assertThat(failed.retryAfter()).isEqualTo(Duration.ofMinutes(10));
  }

  @Test
  void onlyABearerTokenIsOne() {
    for (String other : List.of(token("mac", 60), token("", 60), "{\"access_token\":\"abc\"}")) {
      says("/token", 200, other);
      assertThat(failed().reason()).contains("no bearer token");
    }
    says("/token", 200, token("Bearer", 60).replace("abc", "abc\\r\\nX: 1"));
    assertThat(failed().reason()).contains("no bearer token");
    assertThat(server.asked()).noneMatch(one -> !one.authorization().isEmpty());
  }
}
