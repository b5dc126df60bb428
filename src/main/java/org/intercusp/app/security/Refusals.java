package org.intercusp.app.security;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.intercusp.fhir.Canonicals;
import org.springframework.stereotype.Component;

/** Writes a {@link Refusal}: as FHIR below {@code /fhir}, else as a problem document. */
@Component
class Refusals {

  private final Canonicals canonicals;

  Refusals(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  void write(Refusal refusal, HttpServletRequest request, HttpServletResponse response)
      throws IOException {
    refusal.mark(request);
    boolean fhir = request.getRequestURI().startsWith("/fhir");
    String text = fhir ? refusal.outcome(canonicals.base()) : refusal.problem();
    byte[] body = text.getBytes(StandardCharsets.UTF_8);
    response.setStatus(refusal.status());
    response.setContentType(fhir ? "application/fhir+json" : "application/problem+json");
    response.setContentLength(body.length);
    response.getOutputStream().write(body);
  }
}
