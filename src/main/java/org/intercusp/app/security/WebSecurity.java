package org.intercusp.app.security;

import jakarta.servlet.http.HttpServletRequest;
import java.net.URI;
import org.intercusp.access.CurrentCaller;
import org.intercusp.audit.AuditTrail;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.config.Customizer;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.HeadersConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.intercept.AuthorizationFilter;
import org.springframework.security.web.csrf.CookieCsrfTokenRepository;
import org.springframework.security.web.firewall.RequestRejectedHandler;
import org.springframework.security.web.header.HeaderWriterFilter;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;

/**
 * What stands behind the filters of host, origin and size: who asks, whether they may, a token on
 * every form, and a content policy under which nothing but our own files is loaded or run. Without
 * an issuer nobody logs in, on the loopback address only.
 */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties({DoorSettings.class, LoginSettings.class, RateSettings.class})
class WebSecurity {

  private static final String CONTENT_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
          + "connect-src 'self'; form-action 'self'%s; base-uri 'none'; frame-ancestors 'none'";

  private final LoginSettings settings;
  private final Login login;

  WebSecurity(LoginSettings settings, Login login) {
    this.settings = settings;
    this.login = login;
  }

  /** An address the firewall does not let pass is answered like every other fault. */
  @Bean
  RequestRejectedHandler malformedAddresses(Refusals refusals) {
    return (request, response, fault) -> refusals.write(Refusal.MALFORMED, request, response);
  }

  @Bean
  SecurityFilterChain doors(
      HttpSecurity http,
      Identification identification,
      CurrentCaller callers,
      AuditTrail trail,
      Rates rates)
      throws Exception {
    Entrance entrance = new Entrance(identification);
    http.authorizeHttpRequests(all -> all.anyRequest().access(entrance))
        .csrf(
            csrf ->
                csrf.csrfTokenRepository(new CookieCsrfTokenRepository())
                    .requireCsrfProtectionMatcher(this::needsFormToken))
        .headers(this::headers)
        .sessionManagement(s -> s.sessionCreationPolicy(sessions()))
        .requestCache(cache -> cache.disable())
        .formLogin(form -> form.disable())
        .httpBasic(basic -> basic.disable())
        .addFilterAfter(new FloodFilter(rates, settings), HeaderWriterFilter.class)
        .addFilterAfter(new RefusalTrail(trail), FloodFilter.class)
        .addFilterBefore(
            new CallerFilter(identification, callers, rates), AuthorizationFilter.class);
    return login.added(http).build();
  }

  private void headers(HeadersConfigurer<HttpSecurity> headers) {
    headers
        .contentSecurityPolicy(
            policy -> policy.policyDirectives(CONTENT_POLICY.formatted(issuerForLogout())))
        .frameOptions(Customizer.withDefaults())
        // Without any referrer a browser hides the origin of our own forms too, which the origin
        // filter then refuses.
        .referrerPolicy(policy -> policy.policy(ReferrerPolicy.SAME_ORIGIN));
  }

  /** The form that logs out is sent on to the issuer, which form-action must name. */
  private String issuerForLogout() {
    URI issuer = settings.issuer();
    if (issuer == null || settings.client() == null) {
      return "";
    }
    return " " + issuer.getScheme() + "://" + issuer.getRawAuthority();
  }

  private SessionCreationPolicy sessions() {
    return settings.client() == null
        ? SessionCreationPolicy.STATELESS
        : SessionCreationPolicy.IF_REQUIRED;
  }

  /** Forms, and whatever changes something by the power of a cookie. */
  private boolean needsFormToken(HttpServletRequest request) {
    boolean changing =
        switch (request.getMethod()) {
          case "GET", "HEAD", "OPTIONS", "TRACE" -> false;
          default -> true;
        };
    if (!settings.isOn()) {
      return changing && request.getRequestURI().startsWith("/pages/");
    }
    return changing
        && (request.getSession(false) != null || request.getRequestURI().equals(Login.LOGOUT));
  }
}
