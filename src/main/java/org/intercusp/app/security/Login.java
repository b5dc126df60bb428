package org.intercusp.app.security;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Supplier;
import org.springframework.http.MediaType;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.oauth2.client.oidc.web.logout.OidcClientInitiatedLogoutSuccessHandler;
import org.springframework.security.oauth2.client.registration.ClientRegistration;
import org.springframework.security.oauth2.client.registration.ClientRegistrationRepository;
import org.springframework.security.oauth2.client.registration.ClientRegistrations;
import org.springframework.security.oauth2.server.resource.web.BearerTokenAuthenticationEntryPoint;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.access.AccessDeniedHandler;
import org.springframework.security.web.csrf.CsrfException;
import org.springframework.stereotype.Component;
import org.springframework.util.function.SingletonSupplier;

/**
 * How people and programs say who they are: programs with an access token (RFC 6750, RFC 9068),
 * people on the pages by OpenID Connect.
 */
@Component
class Login {

  /** The name of the one issuer in the paths of a login. */
  static final String NAME = "issuer";

  private static final String START = "/oauth2/authorization/" + NAME;

  /** Below the paths that take forms. */
  static final String LOGOUT = "/pages/logout";

  private final LoginSettings settings;
  private final Refusals refusals;
  private final Clock clock;

  Login(LoginSettings settings, Refusals refusals, Clock clock) {
    this.settings = settings;
    this.refusals = refusals;
    this.clock = clock;
  }

  HttpSecurity added(HttpSecurity http) throws Exception {
    AccessDeniedHandler denied = denied();
    if (!settings.isOn()) {
      return http.logout(logout -> logout.disable())
          .exceptionHandling(refusals -> refusals.accessDeniedHandler(denied));
    }
    AuthenticationEntryPoint unknown = unknown();
    http.exceptionHandling(
            refusals -> refusals.accessDeniedHandler(denied).authenticationEntryPoint(unknown))
        .oauth2ResourceServer(
            server ->
                server
                    .accessDeniedHandler(denied)
                    .authenticationEntryPoint(unknown)
                    .jwt(jwt -> jwt.decoder(Tokens.decoder(settings, clock))));
    LoginSettings.Client client = settings.client();
    return client == null ? http.logout(logout -> logout.disable()) : withPages(http, client);
  }

  private HttpSecurity withPages(HttpSecurity http, LoginSettings.Client client) throws Exception {
    ClientRegistrationRepository registrations = registrations(client);
    OidcClientInitiatedLogoutSuccessHandler after =
        new OidcClientInitiatedLogoutSuccessHandler(registrations);
    after.setPostLogoutRedirectUri("{baseUrl}/");
    return http.oauth2Login(
            login ->
                login
                    .clientRegistrationRepository(registrations)
                    .authorizationEndpoint(
                        begin -> begin.authorizationRequestRepository(new PendingLogins(clock)))
                    .loginPage(START)
                    .defaultSuccessUrl("/", true)
                    .failureHandler(
                        (request, response, fault) ->
                            refusals.write(Refusal.NOT_KNOWN, request, response)))
        .logout(
            logout ->
                logout.logoutUrl(LOGOUT).logoutSuccessHandler(after).deleteCookies("XSRF-TOKEN"));
  }

  /** The issuer's metadata is fetched at the first login: it may start after this service. */
  private ClientRegistrationRepository registrations(LoginSettings.Client client) {
    Supplier<ClientRegistration> registration =
        SingletonSupplier.of(
            () ->
                ClientRegistrations.fromIssuerLocation(
                        Objects.requireNonNull(settings.issuer()).toString())
                    .registrationId(NAME)
                    .clientId(client.id())
                    .clientSecret(secret(client))
                    .scope(client.scopes())
                    .build());
    return id -> id.equals(NAME) ? registration.get() : null;
  }

  private static String secret(LoginSettings.Client client) {
    try {
      return Files.readString(client.secretFile()).strip();
    } catch (IOException e) {
      throw new UncheckedIOException("intercusp.login.client.secret-file cannot be read", e);
    }
  }

  /** 401 with what RFC 6750 asks; a browser that wants a page is sent to log in. */
  private AuthenticationEntryPoint unknown() {
    BearerTokenAuthenticationEntryPoint challenge = new BearerTokenAuthenticationEntryPoint();
    challenge.setRealmName("intercusp");
    return (request, response, fault) -> {
      if (settings.client() != null && wantsPage(request) && !hasToken(request)) {
        response.sendRedirect(START);
        return;
      }
      challenge.commence(request, response, spare(fault));
      refusals.write(Refusal.NOT_KNOWN, request, response);
    };
  }

  // The reason a token is refused can quote the token: only OAuth's own code goes out.
  private static AuthenticationException spare(AuthenticationException fault) {
    return fault
            instanceof org.springframework.security.oauth2.core.OAuth2AuthenticationException oauth
        ? new org.springframework.security.oauth2.core.OAuth2AuthenticationException(
            new org.springframework.security.oauth2.core.OAuth2Error(
                oauth.getError().getErrorCode()))
        : fault;
  }

  private AccessDeniedHandler denied() {
    return (request, response, fault) -> {
      if (hasToken(request)) {
        response.setHeader("WWW-Authenticate", "Bearer error=\"insufficient_scope\"");
      }
      refusals.write(
          fault instanceof CsrfException ? Refusal.CLOSED_FORM : Refusal.NOT_YOURS,
          request,
          response);
    };
  }

  private static boolean hasToken(HttpServletRequest request) {
    return request.getHeader("Authorization") != null;
  }

  private static boolean wantsPage(HttpServletRequest request) {
    String accept = request.getHeader("Accept");
    return Set.of("GET", "HEAD").contains(request.getMethod())
        && accept != null
        && List.of(accept.split(",")).stream()
            .anyMatch(type -> type.strip().startsWith(MediaType.TEXT_HTML_VALUE));
  }
}
