package org.intercusp.exchange;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.oauth2.core.AuthorizationGrantType;
import org.springframework.security.oauth2.core.ClientAuthenticationMethod;
import org.springframework.security.oauth2.core.DelegatingOAuth2TokenValidator;
import org.springframework.security.oauth2.core.OAuth2Error;
import org.springframework.security.oauth2.core.OAuth2TokenValidatorResult;
import org.springframework.security.oauth2.jose.jws.SignatureAlgorithm;
import org.springframework.security.oauth2.server.authorization.authentication.JwtClientAssertionAuthenticationProvider;
import org.springframework.security.oauth2.server.authorization.authentication.JwtClientAssertionDecoderFactory;
import org.springframework.security.oauth2.server.authorization.client.InMemoryRegisteredClientRepository;
import org.springframework.security.oauth2.server.authorization.client.RegisteredClient;
import org.springframework.security.oauth2.server.authorization.settings.ClientSettings;
import org.springframework.security.web.SecurityFilterChain;

/**
 * A hospital's authorization server (Spring Authorization Server) that knows its clients by the
 * keys they publish. It takes an assertion once, which RFC 7523 leaves to the server.
 */
public final class TokenServer implements AutoCloseable {

  private static final Set<String> SEEN = ConcurrentHashMap.newKeySet();
  private static final AtomicInteger TAKEN = new AtomicInteger();

  private final ConfigurableApplicationContext context;
  private final HttpServer published;
  private volatile String keys = "{\"keys\":[]}";

  public TokenServer() {
    try {
      published = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    published.createContext(
        "/",
        exchange -> {
          try (exchange) {
            byte[] body = keys.getBytes(StandardCharsets.UTF_8);
            exchange.getResponseHeaders().set("Content-Type", "application/json");
            exchange.sendResponseHeaders(200, body.length);
            exchange.getResponseBody().write(body);
          }
        });
    published.start();
    context =
        new SpringApplication(Server.class)
            .run(
                "--spring.config.name=tokens",
                "--server.port=0",
                "--server.address=127.0.0.1",
                "--spring.flyway.enabled=false",
                "--spring.thymeleaf.enabled=false",
                "--spring.main.banner-mode=off",
                "--logging.level.root=warn",
                "--logging.level.org.springframework.security=error");
  }

  public String address() {
    return "http://127.0.0.1:" + context.getEnvironment().getProperty("local.server.port");
  }

  public URI tokenEndpoint() {
    return URI.create(address() + "/oauth2/token");
  }

  /** Assertions that were taken so far, each for one token. */
  public int taken() {
    return TAKEN.get();
  }

  public void publishes(String jwks) {
    keys = jwks;
  }

  /** A new client; its id. */
  public String client(SignatureAlgorithm algorithm) {
    String id = "intercusp-" + UUID.randomUUID();
    context
        .getBean(InMemoryRegisteredClientRepository.class)
        .save(
            RegisteredClient.withId(id)
                .clientId(id)
                .clientAuthenticationMethod(ClientAuthenticationMethod.PRIVATE_KEY_JWT)
                .authorizationGrantType(AuthorizationGrantType.CLIENT_CREDENTIALS)
                .scope("system/*.cruds")
                .clientSettings(
                    ClientSettings.builder()
                        .jwkSetUrl(
                            "http://127.0.0.1:" + published.getAddress().getPort() + "/jwks.json")
                        .tokenEndpointAuthenticationSigningAlgorithm(algorithm)
                        .build())
                .build());
    return id;
  }

  @Override
  public void close() {
    context.close();
    published.stop(0);
  }

  /** The server's own settings; nothing of the service is scanned. */
  @Configuration(proxyBeanMethods = false)
  @EnableAutoConfiguration
  static class Server {

    @Bean
    InMemoryRegisteredClientRepository clients() {
      return new InMemoryRegisteredClientRepository(
          List.of(
              RegisteredClient.withId("nobody")
                  .clientId("nobody")
                  .clientSecret("{noop}" + UUID.randomUUID())
                  .clientAuthenticationMethod(ClientAuthenticationMethod.CLIENT_SECRET_BASIC)
                  .authorizationGrantType(AuthorizationGrantType.CLIENT_CREDENTIALS)
                  .build()));
    }

    @Bean
    SecurityFilterChain doors(HttpSecurity http) throws Exception {
      JwtClientAssertionDecoderFactory once = new JwtClientAssertionDecoderFactory();
      once.setJwtValidatorFactory(
          client ->
              new DelegatingOAuth2TokenValidator<>(
                  JwtClientAssertionDecoderFactory.DEFAULT_JWT_VALIDATOR_FACTORY.apply(client),
                  assertion -> {
                    if (assertion.getId() == null || !SEEN.add(assertion.getId())) {
                      return OAuth2TokenValidatorResult.failure(
                          new OAuth2Error("invalid_client", "seen before", null));
                    }
                    return OAuth2TokenValidatorResult.success();
                  }));
      return http.oauth2AuthorizationServer(
              server ->
                  server.clientAuthentication(
                      clients ->
                          clients
                              .authenticationSuccessHandler(
                                  (request, response, authentication) -> {
                                    TAKEN.incrementAndGet();
                                    org.springframework.security.core.context.SecurityContextHolder
                                        .getContext()
                                        .setAuthentication(authentication);
                                  })
                              .authenticationProviders(
                                  all ->
                                      all.stream()
                                          .filter(
                                              JwtClientAssertionAuthenticationProvider.class
                                                  ::isInstance)
                                          .map(JwtClientAssertionAuthenticationProvider.class::cast)
                                          .forEach(one -> one.setJwtDecoderFactory(once)))))
          .authorizeHttpRequests(all -> all.anyRequest().authenticated())
          .build();
    }
  }
}
