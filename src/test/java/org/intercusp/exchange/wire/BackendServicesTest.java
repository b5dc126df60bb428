package org.intercusp.exchange.wire;

import static org.assertj.core.api.Assertions.assertThat;

import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jwt.SignedJWT;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.JumpingClock;
import org.intercusp.exchange.KeyFiles;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.TokenServer;
import org.intercusp.exchange.authorization.Authorization;
import org.intercusp.exchange.authorization.PublishedKeys;
import org.intercusp.exchange.authorization.SigningKeys;
import org.intercusp.exchange.records.DeliveryResult;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.RecordsClient;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.security.oauth2.jose.jws.SignatureAlgorithm;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.jwt.JwtException;
import org.springframework.security.oauth2.jwt.NimbusJwtDecoder;

/**
 * SMART Backend Services against a real authorization server, and a records server that takes its
 * tokens alone.
 */
class BackendServicesTest {

  private static TokenServer authority;
  private static JwtDecoder decoder;

  @TempDir Path folder;
  private final FaultyServer records = new FaultyServer(null);
  private final Set<String> ended = ConcurrentHashMap.newKeySet();
  private final JumpingClock clock = new JumpingClock();
  private RecordsClient client;

  @BeforeAll
  static void begin() {
    authority = new TokenServer();
    decoder = NimbusJwtDecoder.withJwkSetUri(authority.address() + "/oauth2/jwks").build();
  }

  @AfterAll
  static void end() {
    authority.close();
  }

  @BeforeEach
  void guarded() {
    client = client(clock);
    records.always(
        one -> one.path().startsWith("/fhir") && !isTaken(one.authorization()),
        (one, real) -> Said.of(401, "text/plain", "who are you"));
  }

  @AfterEach
  void close() {
    records.close();
  }

  private boolean isTaken(String authorization) {
    String token = authorization.replaceFirst("^Bearer ", "");
    try {
      return !ended.contains(token) && decoder.decode(token) != null;
    } catch (JwtException e) {
      return false;
    }
  }

  private static RecordsClient client(Clock clock) {
    return Clients.at(clock);
  }

  private Target target(SigningKeys keys, String algorithm) {
    String id = authority.client(SignatureAlgorithm.from(algorithm));
    return target(
        new Authorization.Backend(id, authority.tokenEndpoint(), keys, List.of("system/*.cruds")));
  }

  private Target target(Authorization authorization) {
    return new Target(records.baseUrl(), authorization, null, Vicinity.ELSEWHERE_ONLY);
  }

  private SigningKeys published(String algorithm) throws Exception {
    JWK key = KeyFiles.key(algorithm, "k-" + java.util.UUID.randomUUID());
    SigningKeys keys = SigningKeys.read(KeyFiles.file(folder, key), null, algorithm);
    authority.publishes(PublishedKeys.of(List.of(keys)).json());
    return keys;
  }

  @ParameterizedTest
  @ValueSource(strings = {"RS384", "ES384"})
  void deliversWithOneTokenUntilItEnds(String algorithm) throws Exception {
    FakeRecords stored = new FakeRecords(records);
    Target target = target(published(algorithm), algorithm);
    int before = authority.taken();
    Bundle bundle = Parcels.bundle(Parcels.unheardOf());
    assertThat(client.deliver(target, bundle.copy(), Ledger.NONE))
        .isInstanceOf(DeliveryResult.Delivered.class);
    assertThat(client.deliver(target, bundle.copy(), Ledger.NONE))
        .isInstanceOf(DeliveryResult.Delivered.class);
    assertThat(stored.stored()).isPositive();
    assertThat(authority.taken() - before).as("one token for two deliveries").isEqualTo(1);
    ended.add(records.asked().get(records.asked().size() - 1).authorization().substring(7));
    assertThat(client.reach(target).reached()).isTrue();
    assertThat(authority.taken() - before).as("another after 401").isEqualTo(2);

    // Spring's tokens hold for five minutes, and a slow machine takes some seconds of them.
    clock.jump(Duration.ofSeconds(245));
    assertThat(client.reach(target).reached()).isTrue();
    assertThat(authority.taken() - before).as("not near its end yet").isEqualTo(2);
    clock.jump(Duration.ofSeconds(275));
    assertThat(client.reach(target).reached()).isTrue();
    assertThat(authority.taken() - before).as("near its end").isEqualTo(3);
  }

  @Test
  void fetchesOneOtherTokenForARefusalThatStays() throws Exception {
    records.always(one -> true, (one, real) -> Said.of(401, "text/plain", "no"));
    Target target = target(published("ES384"), "ES384");
    int before = authority.taken();

    assertThat(client.reach(target).words()).contains("401");

    assertThat(authority.taken() - before).isEqualTo(2);
    assertThat(records.asked()).hasSize(2);
  }

  @Test
  void changesKeysWhileBothArePublished() throws Exception {
    new FakeRecords(records);
    JWK old = KeyFiles.key("ES384", "old-" + folder.getFileName());
    JWK fresh = KeyFiles.key("ES384", "new-" + folder.getFileName());
    SigningKeys first = SigningKeys.read(KeyFiles.file(folder, old), null, null);
    Path both = KeyFiles.file(folder, old, fresh);
    SigningKeys oldOfBoth = SigningKeys.read(both, old.getKeyID(), null);
    SigningKeys newOfBoth = SigningKeys.read(both, fresh.getKeyID(), null);
    authority.publishes(PublishedKeys.of(List.of(first)).json());
    Target target = target(first, "ES384");
    Authorization.Backend was = (Authorization.Backend) target.authorization();
    assertThat(client.reach(target).reached()).isTrue();

    String json = PublishedKeys.of(List.of(newOfBoth, oldOfBoth)).json();
    authority.publishes(json);

    assertThat(json).contains(old.getKeyID(), fresh.getKeyID()).doesNotContain("\"d\"");
    for (SigningKeys keys : List.of(newOfBoth, oldOfBoth)) {
      Authorization next =
          new Authorization.Backend(was.clientId(), was.tokenEndpoint(), keys, was.scopes());
      assertThat(client(clock).reach(target(next)).words()).isEqualTo("FHIR 4.0.1");
    }
  }

  @Test
  void refusedWithAKeyThatIsNotPublished() throws Exception {
    SigningKeys ours = published("RS384");
    Target right = target(ours, "RS384");
    Authorization.Backend backend = (Authorization.Backend) right.authorization();
    JWK forged = KeyFiles.key("RS384", ours.toString().replaceAll("^.*\\[|\\]$", ""));
    SigningKeys wrong = SigningKeys.read(KeyFiles.file(folder, forged), null, null);
    Target target =
        target(
            new Authorization.Backend(
                backend.clientId(), backend.tokenEndpoint(), wrong, backend.scopes()));

    DeliveryResult result =
        client.deliver(target, Parcels.bundle(Parcels.unheardOf()), Ledger.NONE);

    DeliveryResult.Failed failed = (DeliveryResult.Failed) result;
    assertThat(failed.difficulty()).isEqualTo(Difficulty.REFUSED);
    assertThat(failed.words()).contains("invalid_client").doesNotContain("eyJ");
    assertThat(records.asked()).as("nothing reaches the records server").isEmpty();
  }

  @Test
  void assertionsAreTakenOnceInTimeAndForThisServerAlone() throws Exception {
    SigningKeys keys = published("RS384");
    String id = authority.client(SignatureAlgorithm.RS384);
    String good = keys.assertion(id, authority.tokenEndpoint(), Instant.now());
    SignedJWT read = SignedJWT.parse(good);
    var claims = read.getJWTClaimsSet();

    assertThat(read.getHeader().getAlgorithm().getName()).isEqualTo("RS384");
    assertThat(Duration.between(Instant.now(), claims.getExpirationTime().toInstant()))
        .isPositive()
        .isLessThanOrEqualTo(Duration.ofMinutes(5));
    assertThat(asked(id, good)).isEqualTo(200);
    assertThat(asked(id, good)).as("replayed").isEqualTo(401);
    URI elsewhere = URI.create("https://other.example/token");
    assertThat(asked(id, keys.assertion(id, elsewhere, Instant.now())))
        .as("for another audience")
        .isEqualTo(401);
    Instant past = Instant.now().minus(Duration.ofMinutes(10));
    assertThat(asked(id, keys.assertion(id, authority.tokenEndpoint(), past)))
        .as("expired")
        .isEqualTo(401);
    assertThat(asked(id, keys.assertion(id, authority.tokenEndpoint(), Instant.now())))
        .isEqualTo(200);
  }

  private static int asked(String id, String assertion) throws Exception {
    String form =
        "grant_type=client_credentials&scope="
            + URLEncoder.encode("system/*.cruds", StandardCharsets.UTF_8)
            + "&client_id="
            + id
            + "&client_assertion_type="
            + "urn%3Aietf%3Aparams%3Aoauth%3Aclient-assertion-type%3Ajwt-bearer"
            + "&client_assertion="
            + assertion;
    HttpRequest request =
        HttpRequest.newBuilder(authority.tokenEndpoint())
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(form))
            .build();
    return HttpClient.newHttpClient()
        .send(request, HttpResponse.BodyHandlers.discarding())
        .statusCode();
  }

  @ParameterizedTest
  @CsvSource({"true, true", "false, false"})
  void tokenEndpointFoundOnTheServerItselfOnly(boolean onItself, boolean reached) throws Exception {
    FaultyServer open = new FaultyServer(null);
    String named = onItself ? "/token" : authority.tokenEndpoint().toString();
    open.always(
        one -> one.path().endsWith("/smart-configuration"),
        (one, real) -> Said.of(200, "application/json", "{\"token_endpoint\":\"" + named + "\"}"));
    open.always(
        one -> one.path().equals("/token"),
        (one, real) ->
            Said.of(
                200,
                "application/json",
                "{\"access_token\":\"abc\",\"token_type\":\"Bearer\",\"expires_in\":300}"));
    new FakeRecords(open);
    int before = authority.taken();
    Target target =
        new Target(
            open.baseUrl(),
            new Authorization.Backend("us", null, published("ES384"), List.of("system/*.cruds")),
            null,
            Vicinity.ELSEWHERE_ONLY);

    assertThat(client.reach(target).reached()).isEqualTo(reached);

    assertThat(authority.taken()).isEqualTo(before);
    List<Asked> withToken =
        open.asked().stream().filter(one -> one.authorization().contains("Bearer abc")).toList();
    assertThat(withToken).hasSize(onItself ? 1 : 0);
    open.close();
  }
}
