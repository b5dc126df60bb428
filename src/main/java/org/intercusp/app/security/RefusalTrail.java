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
 * Records each refusal of one who is known: what they may not do, and what is not there for them.
 * Whether it is there for others is not looked at, so that the answer takes as long for the one as
 * for the other. Who could not say who they are, and who comes too often, is counted by {@link
 * RefusalCounts}.
 */
class RefusalTrail extends OncePerRequestFilter {

  /** The attribute of a request whose refusal is recorded by itself. */
  static final String RECORDED = RefusalTrail.class.getName() + ".recorded";

  private static final Set<Refusal> COUNTED = Set.of(Refusal.NOT_KNOWN, Refusal.TOO_OFTEN);
  private static final Set<Integer> REFUSALS = Set.of(401, 403, 404, 429);

  private final AuditTrail trail;

  RefusalTrail(AuditTrail trail) {
    this.trail = trail;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    chain.doFilter(request, response);
    if (REFUSALS.contains(response.getStatus())
        && Refusal.of(request).filter(COUNTED::contains).isEmpty()) {
      note(request, response.getStatus());
      request.setAttribute(RECORDED, true);
    }
  }

  private void note(HttpServletRequest request, int status) {
    Caller caller =
        request.getAttribute(CallerFilter.CALLER) instanceof Caller known ? known : Caller.NOBODY;
    CurrentCaller.Bound binding = trail.callers().bind(CallerFilter.visit(caller));
    try {
      trail.ended(
          Deed.REFUSE,
          Outcome.REFUSED,
          Thing.list(RefusalCounts.place(request.getRequestURI())),
          RefusalCounts.words(status, request));
    } finally {
      binding.close();
    }
  }
}
