package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.Cookie;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.stream.Stream;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.ResponseCookie;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;
import org.springframework.web.util.WebUtils;

/**
 * On a shared machine: lets in who opened the link printed at the start (which leaves a cookie) or
 * sends its token as a bearer token. Health stays open, for whoever watches the service.
 */
@Component
@ConditionalOnProperty("intercusp.doors.require-token")
@Order(Ordered.HIGHEST_PRECEDENCE + 6)
class TokenFilter extends OncePerRequestFilter {

  private static final String COOKIE = "intercusp-start";

  private final StartToken token;
  private final Refusals refusals;

  TokenFilter(StartToken token, Refusals refusals) {
    this.token = token;
    this.refusals = refusals;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    String opened = request.getParameter("token");
    if (request.getRequestURI().equals("/") && opened != null && token.is(opened)) {
      response.addHeader("Set-Cookie", cookie().toString());
      response.sendRedirect("/");
    } else if (request.getRequestURI().startsWith("/actuator/health") || knows(request)) {
      chain.doFilter(request, response);
    } else {
      // RFC 9110, 15.5.2: who is asked to say who they are is told how.
      response.setHeader("WWW-Authenticate", "Bearer realm=\"intercusp\"");
      refusals.write(Refusal.TOKEN, request, response);
    }
  }

  private boolean knows(HttpServletRequest request) {
    Cookie cookie = WebUtils.getCookie(request, COOKIE);
    String header = request.getHeader("Authorization");
    Stream<String> fromCookie = cookie == null ? Stream.empty() : Stream.of(cookie.getValue());
    Stream<String> fromHeader =
        header != null && header.startsWith("Bearer ")
            ? Stream.of(header.substring("Bearer ".length()))
            : Stream.empty();
    return Stream.concat(fromCookie, fromHeader).anyMatch(token::is);
  }

  private ResponseCookie cookie() {
    return ResponseCookie.from(COOKIE, token.value())
        .httpOnly(true)
        .sameSite("Strict")
        .path("/")
        .build();
  }
}
