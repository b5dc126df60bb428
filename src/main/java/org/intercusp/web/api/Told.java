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
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpMethod;
import org.springframework.http.HttpStatus;
import org.springframework.web.ErrorResponse;
import org.springframework.web.HttpMediaTypeNotAcceptableException;
import org.springframework.web.HttpRequestMethodNotSupportedException;

/**
 * The one place that says what an exception is to whoever called, a program or a person. Text of a
 * caller's fault is kept; a fault of ours is hidden behind an incident id, under which its kind and
 * place, never its data, are logged.
 */
public final class Told {

  private static final Logger LOG = LoggerFactory.getLogger(Told.class);

  private Told() {}

  /** What is answered to it. */
  public static Problem of(Exception fault) {
    if (fault instanceof Problem problem) {
      return problem;
    } else if (fault instanceof Intake.OtherTreatment) {
      return Problem.of(
          HttpStatus.CONFLICT, "The file is of another treatment or clinic than the path names.");
    } else if (fault instanceof NotConformant stopped) {
      return notConformant(stopped);
    } else if (fault instanceof OutOfReach) {
      // Whether there is such a thing at that clinic is not said.
      return Problem.of(HttpStatus.FORBIDDEN, "The file is of a clinic that is not one of yours.");
    }
    return Misread.of(fault).orElseGet(() -> ofTheFramework(fault));
  }

  private static Problem ofTheFramework(Exception fault) {
    if (fault instanceof HttpMediaTypeNotAcceptableException form) {
      return notAcceptable(form);
    } else if (fault instanceof HttpRequestMethodNotSupportedException method) {
      return otherMethod(method);
    } else if (fault instanceof ErrorResponse known && known.getStatusCode().is4xxClientError()) {
      HttpStatus status = HttpStatus.valueOf(known.getStatusCode().value());
      return Problem.of(status, status.getReasonPhrase() + ".", known.getHeaders());
    }
    return ours(fault);
  }

  /** What would have been sent is not what FHIR and the profiles ask for; nothing was kept. */
  private static Problem notConformant(NotConformant fault) {
    String reasons =
        fault.issues().stream()
            .filter(issue -> issue.weight().stops())
            .map(issue -> issue.rule() + " at " + issue.expression() + ": " + issue.text())
            .collect(Collectors.joining(" "));
    return Problem.of(
        HttpStatus.UNPROCESSABLE_CONTENT,
        "The treatment makes no Bundle that conforms, so it may not go; nothing was kept. "
            + reasons);
  }

  private static Problem notAcceptable(HttpMediaTypeNotAcceptableException fault) {
    String answers =
        fault.getSupportedMediaTypes().stream()
            .map(type -> type.getType() + "/" + type.getSubtype())
            .distinct()
            .collect(Collectors.joining(" or "));
    return Problem.of(
        HttpStatus.NOT_ACCEPTABLE,
        answers.isEmpty()
            ? "What this path answers is not in the Accept that was sent."
            : "This path answers in " + answers + ".");
  }

  /** Says what the path takes instead; who takes GET takes HEAD. */
  private static Problem otherMethod(HttpRequestMethodNotSupportedException fault) {
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
    return Problem.of(
        HttpStatus.METHOD_NOT_ALLOWED,
        "This path takes " + String.join(" or ", taken) + ".",
        allow);
  }

  private static Problem ours(Exception fault) {
    String incident = UUID.randomUUID().toString();
    // The framework wraps what is worse than an exception, such as too little memory.
    Throwable worst = fault.getCause() instanceof Error error ? error : fault;
    LOG.error("incident {}: {}", incident, FaultPlace.of(worst));
    return DatabaseTrouble.in(fault).isPresent()
        ? unreached(incident)
        : Problem.of(
            HttpStatus.INTERNAL_SERVER_ERROR,
            "The service failed; nothing was kept. Incident " + incident + ".");
  }

  /** The database may have kept what it could not answer for any more. */
  private static Problem unreached(String incident) {
    HttpHeaders later = new HttpHeaders();
    later.set(HttpHeaders.RETRY_AFTER, "30");
    return Problem.of(
        HttpStatus.SERVICE_UNAVAILABLE,
        "The database is away or has no room: try again later, and look first whether this was"
            + " kept. Incident "
            + incident
            + ".",
        later);
  }
}
