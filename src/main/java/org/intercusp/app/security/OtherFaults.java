package org.intercusp.app.security;

import jakarta.servlet.http.HttpServletRequest;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.intercusp.fhir.Canonicals;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.autoconfigure.web.WebProperties;
import org.springframework.boot.webmvc.autoconfigure.error.BasicErrorController;
import org.springframework.boot.webmvc.autoconfigure.error.ErrorViewResolver;
import org.springframework.boot.webmvc.error.ErrorAttributes;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;

/**
 * What the server answers by itself once it knows the path, such as TRACE: told to programs like
 * every other fault, in FHIR below {@code /fhir}; browsers get a page.
 */
@Controller
class OtherFaults extends BasicErrorController {

  private final Canonicals canonicals;

  OtherFaults(
      ErrorAttributes attributes,
      WebProperties web,
      ObjectProvider<ErrorViewResolver> views,
      Canonicals canonicals) {
    super(attributes, web.getError(), views.orderedStream().toList());
    this.canonicals = canonicals;
  }

  @Override
  public ResponseEntity<Map<String, Object>> error(HttpServletRequest request) {
    Object path = request.getAttribute("jakarta.servlet.error.request_uri");
    HttpStatus status = path == null ? HttpStatus.NOT_FOUND : getStatus(request);
    boolean fhir = path != null && Refusals.isFhir(path.toString());
    return ResponseEntity.status(status)
        .contentType(
            fhir ? MediaType.valueOf("application/fhir+json") : MediaType.APPLICATION_PROBLEM_JSON)
        .body(fhir ? outcome(status) : problem(status));
  }

  private static Map<String, Object> problem(HttpStatus status) {
    Map<String, Object> problem = new LinkedHashMap<>();
    problem.put("type", "about:blank");
    problem.put("title", status.getReasonPhrase());
    problem.put("status", status.value());
    problem.put("detail", detail(status));
    problem.put("findings", List.of());
    return problem;
  }

  private Map<String, Object> outcome(HttpStatus status) {
    Map<String, Object> details = new LinkedHashMap<>();
    String system = canonicals.base() + "/CodeSystem/conformance-issue";
    details.put("coding", List.of(coding(system)));
    details.put("text", detail(status));
    Map<String, Object> issue = new LinkedHashMap<>();
    issue.put("severity", "error");
    issue.put("code", status.is4xxClientError() ? "not-supported" : "exception");
    issue.put("details", details);
    Map<String, Object> outcome = new LinkedHashMap<>();
    outcome.put("resourceType", "OperationOutcome");
    outcome.put("issue", List.of(issue));
    return outcome;
  }

  private static Map<String, Object> coding(String system) {
    Map<String, Object> coding = new LinkedHashMap<>();
    coding.put("system", system);
    coding.put("code", "fhir-refused");
    return coding;
  }

  private static String detail(HttpStatus status) {
    return status == HttpStatus.METHOD_NOT_ALLOWED
        ? "This method is not served here."
        : status.getReasonPhrase() + ".";
  }
}
