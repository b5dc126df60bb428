package org.intercusp.web.pages;

import org.intercusp.web.api.Problem;
import org.jspecify.annotations.Nullable;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.resource.NoResourceFoundException;

/** Tells a person in a browser what a program is told as a problem document. */
@ControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE)
class PageFaults {

  @ExceptionHandler(value = Problem.class, produces = MediaType.TEXT_HTML_VALUE)
  ModelAndView problem(Problem problem) {
    return page(problem.status(), problem.getMessage());
  }

  /** A parameter is named, its value is not: it may be anything. */
  @ExceptionHandler(
      value = MethodArgumentTypeMismatchException.class,
      produces = MediaType.TEXT_HTML_VALUE)
  ModelAndView mistyped(MethodArgumentTypeMismatchException fault) {
    return page(
        HttpStatus.BAD_REQUEST, fault.getName() + " has a value that cannot be read as one.");
  }

  /** An address that was mistyped, or is no longer one. */
  @ExceptionHandler(value = NoResourceFoundException.class, produces = MediaType.TEXT_HTML_VALUE)
  ModelAndView nowhere() {
    return page(HttpStatus.NOT_FOUND, "There is no such page.");
  }

  private static ModelAndView page(HttpStatusCode status, @Nullable String words) {
    ModelAndView page = new ModelAndView("fault");
    page.addObject("words", words);
    page.setStatus(status);
    return page;
  }
}
