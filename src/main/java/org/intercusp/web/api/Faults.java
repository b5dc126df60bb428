package org.intercusp.web.api;

import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Collectors;
import org.intercusp.access.OutOfReach;
import org.intercusp.archive.DatabaseTrouble;
import org.intercusp.conformance.NotConformant;
import org.intercusp.finding.FaultPlace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.web.ErrorResponse;
import org.springframework.web.HttpMediaTypeNotAcceptableException;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;

/**
 * The one place that turns exceptions into answers. Text of a caller's fault is kept; a fault of
 * ours is hidden behind an incident id, under which its kind and place, never its data, are logged.
 */
@RestControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE + 1)
class Faults {

  private static final Logger LOG = LoggerFactory.getLogger(Faults.class);

  private final Answers answers;

  Faults(Answers answers) {
    this.answers = answers;
  }

  @ExceptionHandler(Problem.class)
  ResponseEntity<byte[]> problem(Problem problem) {
    return answer(problem, new HttpHeaders());
  }

  @ExceptionHandler(Intake.OtherTreatment.class)
  ResponseEntity<byte[]> otherTreatment() {
    return problem(
        Problem.of(
            HttpStatus.CONFLICT,
            "The file is of another treatment or clinic than the path names."));
  }

  /** What would have been sent is not what FHIR and the profiles ask for; nothing was kept. */
  @ExceptionHandler(NotConformant.class)
  ResponseEntity<byte[]> notConformant(NotConformant fault) {
    String reasons =
        fault.issues().stream()
            .filter(issue -> issue.weight().stops())
            .map(issue -> issue.rule() + " at " + issue.expression() + ": " + issue.text())
            .collect(Collectors.joining(" "));
    return problem(
        Problem.of(
            HttpStatus.UNPROCESSABLE_CONTENT,
            "The treatment makes no Bundle that conforms, so it may not go; nothing was kept. "
                + reasons));
  }

  /** Whether there is such a thing at that clinic is not said. */
  @ExceptionHandler(OutOfReach.class)
  ResponseEntity<byte[]> outOfReach() {
    return problem(
        Problem.of(HttpStatus.FORBIDDEN, "The file is of a clinic that is not one of yours."));
  }

  @ExceptionHandler(HttpMediaTypeNotAcceptableException.class)
  ResponseEntity<byte[]> notAcceptable(HttpMediaTypeNotAcceptableException fault) {
    String answers =
        fault.getSupportedMediaTypes().stream()
            .map(type -> type.getType() + "/" + type.getSubtype())
            .distinct()
            .collect(Collectors.joining(" or "));
    return problem(
        Problem.of(
            HttpStatus.NOT_ACCEPTABLE,
            answers.isEmpty()
                ? "What this path answers is not in the Accept that was sent."
                : "This path answers in " + answers + "."));
  }

  /** Says what the path takes instead; who takes GET takes HEAD. */
  @ExceptionHandler(HttpRequestMethodNotSupportedException.class)
  ResponseEntity<byte[]> otherMethod(HttpRequestMethodNotSupportedException fault) {
    Set<String> taken = new TreeSet<>();
    for (HttpMethod method :
        Objects.requireNonNullElse(fault.getSupportedHttpMethods(), Set.<HttpMethod>of())) {
      taken.add(method.name());
      if (method.equals(HttpMethod.GET)) {
        taken.add(HttpMethod.HEAD.name());
      }
    }
    HttpHeaders allow = new HttpHeaders();
    allow.set(HttpHeaders.ALLOW, String.join(", ", taken));
    String detail = "This path takes " + String.join(" or ", taken) + ".";
    return answer(Problem.of(HttpStatus.METHOD_NOT_ALLOWED, detail), allow);
  }

  /** A parameter is named, its value is not: it may be anything. */
  @ExceptionHandler(MethodArgumentTypeMismatchException.class)
  ResponseEntity<byte[]> mistyped(MethodArgumentTypeMismatchException fault) {
    return problem(
        Problem.of(
            HttpStatus.BAD_REQUEST, fault.getName() + " has a value that cannot be read as one."));
  }

  @ExceptionHandler(MissingServletRequestParameterException.class)
  ResponseEntity<byte[]> missing(MissingServletRequestParameterException fault) {
    return problem(
        Problem.of(HttpStatus.BAD_REQUEST, fault.getParameterName() + " must be given."));
  }

  @ExceptionHandler(BodyTooLong.class)
  ResponseEntity<byte[]> tooLong() {
    return problem(
        Problem.of(HttpStatus.CONTENT_TOO_LARGE, "The body of the request is too long."));
  }

  @ExceptionHandler(HttpMessageNotReadableException.class)
  ResponseEntity<byte[]> unreadable(HttpMessageNotReadableException fault) {
    if (fault.getCause() instanceof BodyTooLong) {
      return tooLong();
    }
    return problem(
        Problem.of(
            HttpStatus.BAD_REQUEST, "The body is absent or cannot be read; nothing was kept."));
  }

  @ExceptionHandler(Exception.class)
  ResponseEntity<byte[]> other(Exception fault) {
    if (fault instanceof ErrorResponse known && known.getStatusCode().is4xxClientError()) {
      HttpStatus status = HttpStatus.valueOf(known.getStatusCode().value());
      return answer(Problem.of(status, status.getReasonPhrase() + "."), known.getHeaders());
    }
    String incident = UUID.randomUUID().toString();
    // The framework wraps what is worse than an exception, such as too little memory.
    Throwable worst = fault.getCause() instanceof Error error ? error : fault;
    LOG.error("incident {}: {}", incident, FaultPlace.of(worst));
    return DatabaseTrouble.in(fault).isPresent()
        ? unreached(incident)
        : problem(
            Problem.of(
                HttpStatus.INTERNAL_SERVER_ERROR,
                "The service failed; nothing was kept. Incident " + incident + "."));
  }

  /** The database may have kept what it could not answer for any more. */
  private ResponseEntity<byte[]> unreached(String incident) {
    HttpHeaders later = new HttpHeaders();
    later.set(HttpHeaders.RETRY_AFTER, "30");
    return answer(
        Problem.of(
            HttpStatus.SERVICE_UNAVAILABLE,
            "The database is away or has no room: try again later, and look first whether this was"
                + " kept. Incident "
                + incident
                + "."),
        later);
  }

  private ResponseEntity<byte[]> answer(Problem problem, HttpHeaders headers) {
    return ResponseEntity.status(problem.status())
        .headers(headers)
        .contentType(MediaType.APPLICATION_PROBLEM_JSON)
        .body(answers.problem(problem));
  }
}
