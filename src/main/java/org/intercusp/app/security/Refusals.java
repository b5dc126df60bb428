package org.intercusp.app.security;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.intercusp.fhir.Canonicals;
import org.springframework.stereotype.Component;

/**
 * Writes a {@link Refusal}: as FHIR below {@code /fhir}, to a browser as a page, else as a problem
 * document.
 */
@Component
class Refusals {

  private enum Form {
    FHIR("application/fhir+json"),
    PAGE("text/html;charset=UTF-8"),
    PROBLEM("application/problem+json");

    private final String mediaType;

    Form(String mediaType) {
      this.mediaType = mediaType;
    }

    private static Form of(HttpServletRequest request) {
      if (isFhir(request)) {
        return FHIR;
      }
      String accept = request.getHeader("Accept");
      return accept != null && accept.contains("text/html") ? PAGE : PROBLEM;
    }
  }

  private final Canonicals canonicals;

  Refusals(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  void write(Refusal refusal, HttpServletRequest request, HttpServletResponse response)
      throws IOException {
    write(refusal, refusal.detail(), request, response);
  }

  /**
   * Writes it with words that say more than its own.
   *
   * @param detail words of ours, nothing of the request
   */
  void write(
      Refusal refusal, String detail, HttpServletRequest request, HttpServletResponse response)
      throws IOException {
    refusal.mark(request);
    Form form = Form.of(request);
    String text =
        switch (form) {
          case FHIR -> refusal.outcome(canonicals.base(), detail);
          case PAGE -> refusal.page(detail);
          case PROBLEM -> refusal.problem(detail);
        };
    byte[] body = text.getBytes(StandardCharsets.UTF_8);
    response.setStatus(refusal.status());
    response.setContentType(form.mediaType);
    response.setContentLength(body.length);
    response.getOutputStream().write(body);
  }

  /** Whether a fault is told in FHIR. */
  static boolean isFhir(HttpServletRequest request) {
    return isFhir(request.getRequestURI());
  }

  /** Whether a fault of this path is told in FHIR. */
  static boolean isFhir(String path) {
    return path.equals("/fhir") || path.startsWith("/fhir/");
  }
}
