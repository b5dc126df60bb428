package org.intercusp.web;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.core.userdetails.User;
import org.springframework.security.core.userdetails.UserDetailsService;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.security.oauth2.core.AuthorizationGrantType;
import org.springframework.security.oauth2.core.ClientAuthenticationMethod;
import org.springframework.security.oauth2.server.authorization.client.InMemoryRegisteredClientRepository;
import org.springframework.security.oauth2.server.authorization.client.RegisteredClient;
import org.springframework.security.oauth2.server.authorization.settings.ClientSettings;
import org.springframework.security.oauth2.server.authorization.token.JwtEncodingContext;
import org.springframework.security.oauth2.server.authorization.token.OAuth2TokenCustomizer;
import org.springframework.security.provisioning.InMemoryUserDetailsManager;

/**
 * A real authorization server (Spring Authorization Server) in this process, on a port of its own.
 */
final class Issuer implements AutoCloseable {

  /** What the service is called at the issuer. */
  static final String AUDIENCE = "https://intercusp.test";

  /** The secret of every client and the password of every person. */
  static final String SECRET = "secret-of-a-test";

  /** The one client by which people log in. */
  static final String PAGES = "pages";

  private final ConfigurableApplicationContext context;

  Issuer() {
    context =
        new SpringApplication(Server.class)
            .run(
                "--spring.config.name=issuer",
                "--server.port=0",
                "--server.address=127.0.0.1",
                "--spring.flyway.enabled=false",
                "--spring.thymeleaf.enabled=false",
                "--server.servlet.session.cookie.name=issuer-session",
                "--spring.main.banner-mode=off",
                "--logging.level.root=warn");
  }

  String address() {
    return "http://127.0.0.1:" + context.getEnvironment().getProperty("local.server.port");
  }

  /** Lets people come back to the service after a login. */
  void servesPagesAt(int port) {
    RegisteredClient client =
        RegisteredClient.withId(UUID.randomUUID().toString())
            .clientId(PAGES)
            .clientSecret(SECRET)
            .clientAuthenticationMethod(ClientAuthenticationMethod.CLIENT_SECRET_BASIC)
            .authorizationGrantType(AuthorizationGrantType.AUTHORIZATION_CODE)
            .redirectUri("http://127.0.0.1:" + port + "/login/oauth2/code/issuer")
            .postLogoutRedirectUri("http://127.0.0.1:" + port + "/")
            .scope("openid")
            .scope("profile")
            .scope("user/*.cruds")
            .clientSettings(ClientSettings.builder().requireAuthorizationConsent(false).build())
            .build();
    context.getBean(InMemoryRegisteredClientRepository.class).save(client);
  }

  /** A token for one of the programs. */
  String token(Program program) throws java.io.IOException {
    String credentials =
        java.util.Base64.getEncoder()
            .encodeToString(
                (program.id() + ":" + SECRET + program.id())
                    .getBytes(java.nio.charset.StandardCharsets.UTF_8));
    java.net.http.HttpRequest request =
        java.net.http.HttpRequest.newBuilder(java.net.URI.create(address() + "/oauth2/token"))
            .header("Authorization", "Basic " + credentials)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(
                java.net.http.HttpRequest.BodyPublishers.ofString(
                    "grant_type=client_credentials&scope="
                        + java.net.URLEncoder.encode(
                            program.scope, java.nio.charset.StandardCharsets.UTF_8)))
            .build();
    try {
      String answer =
          java.net.http.HttpClient.newHttpClient()
              .send(request, java.net.http.HttpResponse.BodyHandlers.ofString())
              .body();
      String token =
          new tools.jackson.databind.json.JsonMapper()
              .readTree(answer)
              .path("access_token")
              .stringValue();
      return java.util.Objects.requireNonNull(token, answer);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    context.close();
  }

  /** The programs that the issuer knows: tenant, scopes, and what is wrong with their tokens. */
  enum Program {
    A_READS("harbour-lane", "system/*.rs"),
    A_WRITES("harbour-lane", "system/*.cu"),
    A_FULL("harbour-lane", "system/*.cruds"),
    B_FULL("quay-side", "system/*.cruds"),
    NARROW("harbour-lane", "system/Observation.rs"),
    REGISTRY("registry", "system/MeasureReport.cr"),
    STRANGER("unknown-tenant", "system/*.cruds"),
    OPERATOR("operator", "system/*.cruds"),
    AUDITOR("operator", "system/MeasureReport.r"),
    BUSY("harbour-lane", "system/*.r"),
    WRONG_AUDIENCE("harbour-lane", "system/*.cruds"),
    EXPIRED("harbour-lane", "system/*.cruds");

    private final String tenant;
    private final String scope;

    Program(String tenant, String scope) {
      this.tenant = tenant;
      this.scope = scope;
    }

    String id() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }

    private RegisteredClient client() {
      return RegisteredClient.withId(id())
          .clientId(id())
          .clientSecret(SECRET + id())
          .clientAuthenticationMethod(ClientAuthenticationMethod.CLIENT_SECRET_BASIC)
          .authorizationGrantType(AuthorizationGrantType.CLIENT_CREDENTIALS)
          .scope(scope)
          .build();
    }
  }

  /** The server's own settings; nothing of the service is scanned. */
  @Configuration(proxyBeanMethods = false)
  @EnableAutoConfiguration
  static class Server {

    @Bean
    InMemoryRegisteredClientRepository clients() {
      return new InMemoryRegisteredClientRepository(
          java.util.stream.Stream.of(Program.values()).map(Program::client).toList());
    }

    @Bean
    UserDetailsService people() {
      return new InMemoryUserDetailsManager(
          User.withUsername("rosa").password(SECRET).roles("CLINICIAN").build());
    }

    /** The passwords as they stand: hashing each of them again would cost most of a login. */
    @Bean
    PasswordEncoder passwords() {
      return new PasswordEncoder() {
        @Override
        public String encode(CharSequence raw) {
          return raw.toString();
        }

        @Override
        public boolean matches(CharSequence raw, String encoded) {
          return raw.toString().equals(encoded);
        }
      };
    }

    @Bean
    OAuth2TokenCustomizer<JwtEncodingContext> claims() {
      Map<String, Program> programs = new HashMap<>();
      List.of(Program.values()).forEach(one -> programs.put(one.id(), one));
      return context -> {
        Program program = programs.get(context.getRegisteredClient().getClientId());
        boolean access = context.getTokenType().getValue().equals("access_token");
        context.getClaims().claim("tenant", program == null ? "harbour-lane" : program.tenant);
        if (program == null) {
          context.getClaims().claim("name", "Dr Rosa Marsh");
        }
        if (access) {
          context
              .getClaims()
              .audience(
                  List.of(program == Program.WRONG_AUDIENCE ? "https://other.test" : AUDIENCE));
        }
        if (program == Program.EXPIRED) {
          Instant past = Instant.now().minusSeconds(7_200);
          context.getClaims().issuedAt(past).notBefore(past).expiresAt(past.plusSeconds(300));
        }
      };
    }
  }
}
