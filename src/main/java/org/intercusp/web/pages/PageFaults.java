package org.intercusp.web.pages;

import org.intercusp.web.api.Problem;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.servlet.ModelAndView;

/** Tells a person in a browser what a program is told as a problem document. */
@ControllerAdvice
@Order(Ordered.HIGHEST_PRECEDENCE)
class PageFaults {

  @ExceptionHandler(value = Problem.class, produces = MediaType.TEXT_HTML_VALUE)
  ModelAndView problem(Problem problem) {
    ModelAndView page = new ModelAndView("fault");
    page.addObject("words", problem.getMessage());
    page.setStatus(problem.status());
    return page;
  }
}
