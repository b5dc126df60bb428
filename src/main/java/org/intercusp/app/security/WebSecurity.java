package org.intercusp.app.security;

import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.config.Customizer;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.csrf.CookieCsrfTokenRepository;
import org.springframework.security.web.firewall.RequestRejectedHandler;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;

/**
 * No login on the loopback address; a token on every form; a content policy under which nothing but
 * our own files is loaded or run.
 */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(DoorSettings.class)
class WebSecurity {

  private static final String CONTENT_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
          + "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

  /** An address the firewall does not let pass is answered like every other fault. */
  @Bean
  RequestRejectedHandler malformedAddresses() {
    return (request, response, fault) -> Refusal.MALFORMED.write(request, response);
  }

  @Bean
  SecurityFilterChain doors(HttpSecurity http) throws Exception {
    return http.authorizeHttpRequests(all -> all.anyRequest().permitAll())
        .csrf(
            csrf ->
                csrf.csrfTokenRepository(new CookieCsrfTokenRepository())
                    .requireCsrfProtectionMatcher(
                        request ->
                            request.getMethod().equals("POST")
                                && request.getRequestURI().startsWith("/pages/")))
        .headers(
            headers ->
                headers
                    .contentSecurityPolicy(policy -> policy.policyDirectives(CONTENT_POLICY))
                    .frameOptions(Customizer.withDefaults())
                    // Without any referrer a browser hides the origin of our own forms too, which
                    // the origin filter then refuses.
                    .referrerPolicy(policy -> policy.policy(ReferrerPolicy.SAME_ORIGIN)))
        .sessionManagement(s -> s.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
        .requestCache(cache -> cache.disable())
        .formLogin(form -> form.disable())
        .httpBasic(basic -> basic.disable())
        .logout(logout -> logout.disable())
        .build();
  }
}
