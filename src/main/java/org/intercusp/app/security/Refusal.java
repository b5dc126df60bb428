package org.intercusp.app.security;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Optional;
import org.intercusp.finding.Caution;

/**
 * What a filter answers before any door is reached: a problem document (RFC 9457), or an
 * OperationOutcome below {@code /fhir}. The texts are fixed, so nothing of the request comes back.
 */
enum Refusal {
  MISDIRECTED(
      421, "security", "Misdirected request", "This host name is not one this service answers to."),
  FOREIGN(
      403,
      "security",
      "Forbidden",
      "A state change must come from this service's own pages or a program."),
  TOKEN(
      401,
      "login",
      "Unauthorized",
      "Open the link that was printed at the start, or send its token."),
  MALFORMED(400, "invalid", "Bad request", "This address or method is not one that is served."),
  NOT_KNOWN(401, "login", "Unauthorized", "Say who you are with a token of this service's issuer."),
  NOT_YOURS(403, "forbidden", "Forbidden", "What you were granted does not cover this."),
  CLOSED_FORM(403, "security", "Forbidden", "The page is too old to be sent. Open it anew."),
  TOO_LARGE(413, "too-long", "Content too large", "The body of the request is too long."),
  TOO_OFTEN(429, "throttled", "Too many requests", "Come again after the time in Retry-After."),
  MEDIA_TYPE(
      415, "not-supported", "Unsupported media type", "This path does not take what was sent.");

  /** The attribute of a request that says how it was refused. */
  private static final String ANSWERED = Refusal.class.getName();

  private final int status;
  private final String issue;
  private final String title;
  private final String detail;

  /**
   * @param issue FHIR's word for it (http://hl7.org/fhir/R4/valueset-issue-type.html)
   */
  Refusal(int status, String issue, String title, String detail) {
    this.status = status;
    this.issue = issue;
    this.title = title;
    this.detail = detail;
  }

  /** How a request was refused by a filter; empty where it was not. */
  static Optional<Refusal> of(HttpServletRequest request) {
    return request.getAttribute(ANSWERED) instanceof Refusal refusal
        ? Optional.of(refusal)
        : Optional.empty();
  }

  /** Has {@link #of} know that a request was refused in this way. */
  void mark(HttpServletRequest request) {
    request.setAttribute(ANSWERED, this);
  }

  int status() {
    return status;
  }

  /** What is said where there are no words that fit better. */
  String detail() {
    return detail;
  }

  /**
   * A problem document.
   *
   * @param detail words of ours, nothing of the request
   */
  String problem(String detail) {
    return ("{\"type\":\"about:blank\",\"title\":\"%s\",\"status\":%d,\"detail\":\"%s\","
            + "\"findings\":[]}")
        .formatted(title, status, detail);
  }

  /**
   * A page for a browser, whole in itself: whoever is refused may be shown nothing else.
   *
   * @param detail words of ours, nothing of the request
   */
  String page(String detail) {
    return """
        <!DOCTYPE html>
        <html lang="en">
        <head>
          <meta charset="UTF-8">
          <meta name="viewport" content="width=device-width, initial-scale=1">
          <title>Not possible</title>
          <link rel="stylesheet" href="/site.css">
        </head>
        <body>
        <main>
          <h1>Not possible</h1>
          <p>%s</p>
          <p><a href="/">To the treatments</a></p>
        </main>
        <footer>
          <p>%s</p>
        </footer>
        </body>
        </html>
        """
        .formatted(detail, Caution.TEXT);
  }

  /**
   * An OperationOutcome.
   *
   * @param base of our canonicals
   * @param detail words of ours, nothing of the request
   */
  String outcome(String base, String detail) {
    return ("{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\","
            + "\"code\":\"%s\",\"details\":{\"coding\":[{\"system\":"
            + "\"%s/CodeSystem/conformance-issue\","
            + "\"code\":\"fhir-refused\"}],\"text\":\"%s\"}}]}")
        .formatted(issue, base, detail);
  }
}
