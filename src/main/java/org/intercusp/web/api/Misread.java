package org.intercusp.web.api;

import java.util.Optional;
import org.apache.tomcat.util.http.InvalidParameterException;
import org.springframework.http.HttpStatus;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.security.web.firewall.RequestRejectedException;
import org.springframework.validation.BindException;
import org.springframework.validation.FieldError;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;
import org.springframework.web.multipart.MaxUploadSizeExceededException;
import org.springframework.web.multipart.MultipartException;
import org.springframework.web.multipart.support.MissingServletRequestPartException;

/**
 * What a request has wrong before a door looks at it, in words of ours. A parameter or field is
 * named, its value is not: it may be anything.
 */
final class Misread {

  private Misread() {}

  /** The caller's fault behind an exception of the framework; empty where it is another's. */
  static Optional<Problem> of(Exception fault) {
    if (fault instanceof BodyTooLong
        || fault.getCause() instanceof BodyTooLong
        || fault instanceof MaxUploadSizeExceededException) {
      return Optional.of(
          Problem.of(HttpStatus.CONTENT_TOO_LARGE, "The body of the request is too long."));
    }
    return words(fault).map(words -> Problem.of(HttpStatus.BAD_REQUEST, words));
  }

  private static Optional<String> words(Exception fault) {
    if (fault instanceof MethodArgumentTypeMismatchException mistyped) {
      return Optional.of(unread(mistyped.getName()));
    }
    if (fault instanceof MissingServletRequestParameterException missing) {
      return Optional.of(missing.getParameterName() + " must be given.");
    }
    if (fault instanceof BindException form) {
      FieldError field = form.getFieldError();
      return Optional.of(field == null ? "The form cannot be read." : unread(field.getField()));
    }
    if (fault instanceof MultipartException
        || fault instanceof MissingServletRequestPartException) {
      return Optional.of("The form comes without its file.");
    }
    if (fault instanceof InvalidParameterException || fault instanceof RequestRejectedException) {
      return Optional.of("The parameters are not written as a URL writes them.");
    }
    return fault instanceof HttpMessageNotReadableException
        ? Optional.of("The body is absent or cannot be read; nothing was kept.")
        : Optional.empty();
  }

  private static String unread(String name) {
    return name + " has a value that cannot be read as one.";
  }
}
