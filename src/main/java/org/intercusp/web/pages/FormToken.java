package org.intercusp.web.pages;

import org.jspecify.annotations.Nullable;
import org.springframework.security.web.csrf.CsrfToken;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;

/**
 * Draws the token of the forms before a page begins. It goes with a cookie, and a long page has
 * left with its headers by the time its first form is written.
 */
@ControllerAdvice(basePackageClasses = FormToken.class)
class FormToken {

  @ModelAttribute
  void draw(@Nullable CsrfToken token) {
    if (token != null) {
      String unused = token.getToken();
    }
  }
}
