package org.intercusp.web.pages;

import jakarta.servlet.http.HttpServletResponse;
import org.intercusp.web.api.Problem;
import org.intercusp.web.api.Told;
import org.jspecify.annotations.Nullable;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.MediaType;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.resource.NoResourceFoundException;

/** Tells a person in a browser what a program is told as a problem document. */
@ControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE)
class PageFaults {

  @ExceptionHandler(value = Exception.class, produces = MediaType.TEXT_HTML_VALUE)
  ModelAndView told(Exception fault, HttpServletResponse response) {
    Problem problem = Told.of(fault);
    return page(problem, response, problem.getMessage());
  }

  /** Where a form was sent to, opened from the address that the browser then shows. */
  @ExceptionHandler(
      value = HttpRequestMethodNotSupportedException.class,
      produces = MediaType.TEXT_HTML_VALUE)
  ModelAndView otherMethod(Exception fault, HttpServletResponse response) {
    return page(
        Told.of(fault),
        response,
        "Nothing is shown at this address. Open the treatment from the list.");
  }

  /** An address that was mistyped, or is no longer one. */
  @ExceptionHandler(value = NoResourceFoundException.class, produces = MediaType.TEXT_HTML_VALUE)
  ModelAndView nowhere() {
    return page(HttpStatus.NOT_FOUND, "There is no such page.");
  }

  private static ModelAndView page(
      Problem problem, HttpServletResponse response, @Nullable String words) {
    problem
        .headers()
        .forEach((name, values) -> values.forEach(value -> response.addHeader(name, value)));
    return page(problem.status(), words);
  }

  private static ModelAndView page(HttpStatusCode status, @Nullable String words) {
    ModelAndView page = new ModelAndView("fault");
    page.addObject("words", words);
    page.setStatus(status);
    return page;
  }
}
