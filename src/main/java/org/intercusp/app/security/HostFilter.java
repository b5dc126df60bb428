package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Answers 421 (RFC 9110, 15.5.20) to a request for a host that is not ours: a page elsewhere that
 * rebinds its name to the loopback address reaches nothing.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 2)
class HostFilter extends OncePerRequestFilter {

  private final DoorSettings settings;
  private final Refusals refusals;

  HostFilter(DoorSettings settings, Refusals refusals) {
    this.settings = settings;
    this.refusals = refusals;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    String host = request.getHeader("Host");
    if (host == null || !settings.knowsHost(host)) {
      refusals.write(Refusal.MISDIRECTED, request, response);
      return;
    }
    chain.doFilter(request, response);
  }
}
