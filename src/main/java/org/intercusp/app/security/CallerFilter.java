package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.TraceContext;
import org.intercusp.access.Visit;
import org.slf4j.MDC;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.filter.OncePerRequestFilter;

/** Binds who asks to the thread for the length of the request, once that is known. */
class CallerFilter extends OncePerRequestFilter {

  /** The attribute of a request that says who asks. */
  static final String CALLER = CallerFilter.class.getName() + ".caller";

  private final Identification identification;
  private final CurrentCaller callers;
  private final Rates rates;

  CallerFilter(Identification identification, CurrentCaller callers, Rates rates) {
    this.identification = identification;
    this.callers = callers;
    this.rates = rates;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    Caller caller = identification.of(SecurityContextHolder.getContext().getAuthentication());
    request.setAttribute(CALLER, caller);
    if (rates.isTooMuch(caller, request, response)) {
      return;
    }
    Visit visit = visit(caller);
    if ("GET".equals(request.getMethod())) {
      visit.seeks(written(request));
    }
    CurrentCaller.Bound binding = callers.bind(visit);
    try {
      chain.doFilter(request, response);
    } finally {
      binding.close();
    }
  }

  /** As it came; the FHIR door says it as FHIR does, and where it came as a form. */
  private static String written(HttpServletRequest request) {
    String parameters = request.getQueryString();
    return request.getRequestURI() + (parameters == null ? "" : "?" + parameters);
  }

  static Visit visit(Caller caller) {
    String id = MDC.get(RequestIdFilter.REQUEST);
    TraceContext trace =
        TraceContext.read(MDC.get(RequestIdFilter.TRACE)).orElseGet(TraceContext::fresh);
    return new Visit(caller, id == null ? "" : id, trace);
  }

  /** An answer that is written after the request returned is written for the same caller. */
  @Override
  protected boolean shouldNotFilterAsyncDispatch() {
    return false;
  }
}
