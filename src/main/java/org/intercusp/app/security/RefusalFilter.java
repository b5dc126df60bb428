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
 * Has every refusal counted that {@link RefusalTrail} has not recorded: it stands before all
 * filters that refuse, so that none of them can forget.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 1)
class RefusalFilter extends OncePerRequestFilter {

  private final RefusalCounts counts;

  RefusalFilter(RefusalCounts counts) {
    this.counts = counts;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    try {
      chain.doFilter(request, response);
    } finally {
      if (request.getAttribute(RefusalTrail.RECORDED) == null) {
        Refusal.of(request).ifPresent(refusal -> counts.note(refusal, request));
      }
    }
  }
}
