package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.ECDSASigner;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.Date;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.security.oauth2.jwt.BadJwtException;
import org.springframework.security.oauth2.jwt.JwtDecoder;

/** Tokens that name keys nobody has do not become requests to the issuer. */
class IssuerKeysTest {

  private final HandSetClock clock = new HandSetClock();
  private final AtomicInteger fetches = new AtomicInteger();
  private final ECKey first = key("first");
  private final ECKey second = key("second");
  private volatile JWKSet published = new JWKSet(first.toPublicJWK());
  private HttpServer issuer;
  private JwtDecoder decoder;

  @BeforeEach
  void started() throws Exception {
    issuer = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    issuer.createContext(
        "/.well-known/openid-configuration",
        exchange ->
            answer(
                exchange,
                "{\"issuer\":\"%s\",\"jwks_uri\":\"%s/keys\"}".formatted(address(), address())));
    issuer.createContext(
        "/keys",
        exchange -> {
          fetches.incrementAndGet();
          answer(exchange, published.toString());
        });
    issuer.start();
    decoder =
        Tokens.decoder(
            new LoginSettings(
                URI.create(address()),
                "intercusp",
                "tenant",
                Map.of(),
                Duration.ofSeconds(30),
                null),
            clock);
    assertThat(decoder.decode(token(first)).getSubject()).isEqualTo("somebody");
    fetches.set(0);
  }

  @AfterEach
  void stopped() {
    issuer.stop(0);
  }

  @Test
  void junkDoesNotBecomeRequestsToTheIssuer() throws Exception {
    clock.goOn(IssuerKeys.SOONEST);
    for (int i = 0; i < 20; i++) {
      String junk = token(key("nobody-has-" + i));
      assertThatThrownBy(() -> decoder.decode(junk)).isInstanceOf(BadJwtException.class);
    }
    assertThat(fetches).hasValue(1);
    assertThat(decoder.decode(token(first)).getSubject()).isEqualTo("somebody");
    assertThat(fetches).hasValue(1);
  }

  @Test
  void aNewKeyOfTheIssuerIsTakenAfterAWhile() throws Exception {
    published = new JWKSet(second.toPublicJWK());
    String token = token(second);
    assertThatThrownBy(() -> decoder.decode(token)).isInstanceOf(BadJwtException.class);
    clock.goOn(IssuerKeys.SOONEST);
    assertThat(decoder.decode(token).getSubject()).isEqualTo("somebody");
  }

  @Test
  void aKeyThatTheIssuerWithdrewIsForgotten() throws Exception {
    published = new JWKSet(second.toPublicJWK());
    String token = token(first);
    clock.goOn(IssuerKeys.LONGEST.minusSeconds(1));
    assertThat(decoder.decode(token).getSubject()).isEqualTo("somebody");
    clock.goOn(Duration.ofSeconds(1));
    assertThatThrownBy(() -> decoder.decode(token)).isInstanceOf(BadJwtException.class);
  }

  private String address() {
    return "http://127.0.0.1:" + issuer.getAddress().getPort();
  }

  private String token(ECKey key) throws Exception {
    JWTClaimsSet claims =
        new JWTClaimsSet.Builder()
            .issuer(address())
            .audience("intercusp")
            .subject("somebody")
            .expirationTime(Date.from(Instant.now().plusSeconds(300)))
            .build();
    JWSHeader header = new JWSHeader.Builder(JWSAlgorithm.ES256).keyID(key.getKeyID()).build();
    SignedJWT jwt = new SignedJWT(header, claims);
    jwt.sign(new ECDSASigner(key));
    return jwt.serialize();
  }

  private static ECKey key(String id) {
    try {
      return new ECKeyGenerator(Curve.P_256).keyID(id).generate();
    } catch (com.nimbusds.jose.JOSEException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void answer(HttpExchange exchange, String body) throws IOException {
    byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
    exchange.getResponseHeaders().set("Content-Type", "application/json");
    exchange.sendResponseHeaders(200, bytes.length);
    exchange.getResponseBody().write(bytes);
    exchange.close();
  }
}
