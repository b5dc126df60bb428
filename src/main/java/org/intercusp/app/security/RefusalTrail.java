package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Set;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Outcome;
import org.intercusp.audit.Thing;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Records refusals: who was not let in, and who asked for what is not there for them. Whether it is
 * there for others is not looked at, so that the answer takes as long for the one as for the other.
 * Of a caller who is known everything is recorded that is not just one request too many; the rest,
 * which tells no more than that there were many, within a bound ({@link Rates#isNoted}): each record
 * is a row on the disk, and who is not known must not fill it.
 */
class RefusalTrail extends OncePerRequestFilter {

  private static final Set<Integer> REFUSALS = Set.of(401, 403, 404, 429);

  private final AuditTrail trail;
  private final Rates rates;

  RefusalTrail(AuditTrail trail, Rates rates) {
    this.trail = trail;
    this.rates = rates;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    chain.doFilter(request, response);
    Caller caller =
        request.getAttribute(CallerFilter.CALLER) instanceof Caller known ? known : Caller.NOBODY;
    if (REFUSALS.contains(response.getStatus())
        && rates.isNoted(caller, response.getStatus(), request)) {
      note(caller, request, response.getStatus());
    }
  }

  private void note(Caller caller, HttpServletRequest request, int status) {
    CurrentCaller.Bound binding = trail.callers().bind(CallerFilter.visit(caller));
    try {
      trail.ended(
          Deed.REFUSE,
          Outcome.REFUSED,
          Thing.list(place(request.getRequestURI())),
          status + " " + request.getMethod());
    } finally {
      binding.close();
    }
  }

  /** The first word of the path, which is ours; what follows is the caller's. */
  private static String place(String path) {
    for (String known : Set.of("treatments", "deliveries", "fhir", "registry", "pages", "check")) {
      if (path.equals("/" + known) || path.startsWith("/" + known + "/")) {
        return known;
      }
    }
    return "other";
  }
}
