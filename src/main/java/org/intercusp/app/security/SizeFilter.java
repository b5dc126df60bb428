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

/** Answers 413 to a body that is too long; one of unknown length is cut off when it is. */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 4)
class SizeFilter extends OncePerRequestFilter {

  private final RateSettings settings;
  private final Refusals refusals;

  SizeFilter(RateSettings settings, Refusals refusals) {
    this.settings = settings;
    this.refusals = refusals;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    String path = request.getRequestURI();
    boolean many = path.startsWith("/registry/") || path.equals("/import");
    long most = (many ? settings.upload() : settings.body()).toBytes();
    if (request.getContentLengthLong() > most) {
      refusals.write(Refusal.TOO_LARGE, request, response);
      return;
    }
    BoundedRequest bounded = new BoundedRequest(request, most);
    try {
      chain.doFilter(bounded, response);
    } finally {
      if (bounded.isCutOff() && response.isCommitted()) {
        // The door has said so itself.
        Refusal.TOO_LARGE.mark(request);
      } else if (bounded.isCutOff()) {
        String id = response.getHeader(RequestIdFilter.HEADER);
        response.reset();
        response.setHeader(RequestIdFilter.HEADER, id);
        refusals.write(Refusal.TOO_LARGE, request, response);
      }
    }
  }
}
