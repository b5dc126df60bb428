package org.intercusp.web.api;

import java.util.List;
import org.intercusp.finding.Finding;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;

/**
 * A fault, answered as a problem document (RFC 9457) with the findings that explain it, or as a
 * page.
 */
public final class Problem extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient HttpStatusCode status;
  private final String title;
  private final transient List<Finding> findings;
  private final transient HttpHeaders headers;

  Problem(HttpStatus status, String detail, List<Finding> findings) {
    this(status, status.getReasonPhrase(), detail, findings, HttpHeaders.EMPTY);
  }

  private Problem(
      HttpStatus status, String title, String detail, List<Finding> findings, HttpHeaders headers) {
    super(detail);
    this.status = status;
    this.title = title;
    this.findings = List.copyOf(findings);
    this.headers = headers;
  }

  static Problem unreadable(List<Finding> faults) {
    return new Problem(
        HttpStatus.BAD_REQUEST, "The treatment file cannot be read; nothing was kept.", faults);
  }

  static Problem erased() {
    return of(
        HttpStatus.CONFLICT, "A treatment with this id was erased; the id is not used again.");
  }

  static Problem of(HttpStatus status, String detail) {
    return new Problem(status, detail, List.of());
  }

  /** With a header that says what else can be done, such as {@code Allow}. */
  static Problem of(HttpStatus status, String detail, HttpHeaders headers) {
    return new Problem(status, status.getReasonPhrase(), detail, List.of(), headers);
  }

  /** The status it is answered with. */
  public HttpStatusCode status() {
    return status;
  }

  /** What goes with the answer whatever its form. */
  public HttpHeaders headers() {
    return headers;
  }

  String title() {
    return title;
  }

  List<Finding> findings() {
    return findings;
  }
}
