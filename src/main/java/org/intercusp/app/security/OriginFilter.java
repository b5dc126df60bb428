package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.Set;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Refuses a state change that a page of another origin asks for: a foreign {@code Origin}, or
 * {@code Sec-Fetch-Site} other than same-origin or none (W3C Fetch Metadata Request Headers).
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 3)
class OriginFilter extends OncePerRequestFilter {

  private static final Set<String> READING = Set.of("GET", "HEAD", "OPTIONS", "TRACE");
  private static final Set<String> OUR_SITE = Set.of("same-origin", "none");

  private final Refusals refusals;

  OriginFilter(Refusals refusals) {
    this.refusals = refusals;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    if (!READING.contains(request.getMethod()) && isForeign(request)) {
      refusals.write(Refusal.FOREIGN, request, response);
      return;
    }
    chain.doFilter(request, response);
  }

  private static boolean isForeign(HttpServletRequest request) {
    String site = request.getHeader("Sec-Fetch-Site");
    if (site != null && !OUR_SITE.contains(site)) {
      return true;
    }
    String origin = request.getHeader("Origin");
    return origin != null && !sameHost(origin, request.getHeader("Host"));
  }

  private static boolean sameHost(String origin, String host) {
    try {
      URI uri = new URI(origin);
      return uri.getRawAuthority() != null && uri.getRawAuthority().equalsIgnoreCase(host);
    } catch (URISyntaxException e) {
      return false;
    }
  }
}
