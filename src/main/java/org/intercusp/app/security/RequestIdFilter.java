package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.UUID;
import java.util.regex.Pattern;
import org.intercusp.access.TraceContext;
import org.slf4j.MDC;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Gives every request an id, under which the answer, the log and the trail speak of it. The
 * caller's own is taken where it can be nothing but an id: digits of a UUID, so that no name or
 * number of a patient comes into a log by this way.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class RequestIdFilter extends OncePerRequestFilter {

  /** The key of the request's id in the log's context. */
  static final String REQUEST = "request";

  /** The key of the W3C trace context in the log's context. */
  static final String TRACE = "traceparent";

  /** What every answer carries. */
  static final String HEADER = "X-Request-Id";

  private static final Pattern WELL_FORMED =
      Pattern.compile("[0-9a-fA-F]{8}-?([0-9a-fA-F]{4}-?){3}[0-9a-fA-F]{12}");

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    String asked = request.getHeader(HEADER);
    String id =
        asked != null && WELL_FORMED.matcher(asked).matches()
            ? asked
            : UUID.randomUUID().toString();
    TraceContext trace =
        TraceContext.read(request.getHeader(TRACE))
            .map(TraceContext::next)
            .orElseGet(TraceContext::fresh);
    response.setHeader(HEADER, id);
    MDC.put(REQUEST, id);
    MDC.put(TRACE, trace.header());
    try {
      chain.doFilter(request, response);
    } finally {
      MDC.remove(REQUEST);
      MDC.remove(TRACE);
    }
  }
}
