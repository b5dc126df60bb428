package org.intercusp.web.fhir;

import java.util.List;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Weight;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;

/** What the door answers instead of what was asked for. It has no stack trace: it is an answer. */
final class Fault extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final transient HttpStatus status;
  private final transient List<Issue> issues;
  private final transient HttpHeaders headers = new HttpHeaders();

  private Fault(HttpStatus status, List<Issue> issues) {
    super(issues.get(0).text(), null, false, false);
    this.status = status;
    this.issues = List.copyOf(issues);
  }

  static Fault of(Reason reason, String text) {
    return new Fault(reason.status(), List.of(issue(reason, Weight.ERROR, text)));
  }

  /**
   * Of a resource that was sent.
   *
   * @param expression a FHIRPath to what it is about
   */
  static Fault of(Reason reason, String text, String expression) {
    Issue issue =
        new Issue(Weight.ERROR, reason.type(), reason.code(), text, expression, null, null, null);
    return new Fault(reason.status(), List.of(issue));
  }

  /** With what was found in a document, at least one thing. */
  static Fault of(Reason reason, List<Issue> issues) {
    return new Fault(reason.status(), issues);
  }

  static Issue issue(Reason reason, Weight weight, String text) {
    return new Issue(weight, reason.type(), reason.code(), text, null, null, null, null);
  }

  Fault with(String header, String value) {
    headers.add(header, value);
    return this;
  }

  HttpStatus status() {
    return status;
  }

  List<Issue> issues() {
    return issues;
  }

  HttpHeaders headers() {
    return headers;
  }
}
