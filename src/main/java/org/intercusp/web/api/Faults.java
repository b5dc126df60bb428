package org.intercusp.web.api;

import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;

/** Tells a program what went wrong, as a problem document. */
@RestControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE + 1)
class Faults {

  private final Answers answers;

  Faults(Answers answers) {
    this.answers = answers;
  }

  @ExceptionHandler(Exception.class)
  ResponseEntity<byte[]> told(Exception fault) {
    Problem problem = Told.of(fault);
    return ResponseEntity.status(problem.status())
        .headers(problem.headers())
        .contentType(MediaType.APPLICATION_PROBLEM_JSON)
        .body(answers.problem(problem));
  }
}
