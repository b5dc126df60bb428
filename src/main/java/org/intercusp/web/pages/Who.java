package org.intercusp.web.pages;

import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Says on every page who is logged in. */
@ControllerAdvice(annotations = Controller.class, basePackageClasses = Who.class)
class Who {

  private final CurrentCaller callers;

  Who(CurrentCaller callers) {
    this.callers = callers;
  }

  /** The person's name; absent where nobody logs in. */
  @ModelAttribute("person")
  @Nullable String person() {
    Caller caller = callers.caller();
    return caller.kind() == Caller.Kind.PERSON ? caller.name() : null;
  }
}
