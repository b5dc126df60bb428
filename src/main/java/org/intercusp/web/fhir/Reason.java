package org.intercusp.web.fhir;

import org.springframework.http.HttpStatus;

/** Why this door does not do what it is asked: our code, FHIR's issue type and the HTTP status. */
enum Reason {
  NOT_HERE("fhir-not-here", "not-supported", HttpStatus.NOT_FOUND),
  NOT_FOUND("fhir-not-found", "not-found", HttpStatus.NOT_FOUND),
  FORBIDDEN("fhir-forbidden", "forbidden", HttpStatus.FORBIDDEN),
  METHOD("fhir-method", "not-supported", HttpStatus.METHOD_NOT_ALLOWED),
  PARAMETER("fhir-parameter", "invalid", HttpStatus.BAD_REQUEST),
  UNREADABLE("fhir-unreadable", "structure", HttpStatus.BAD_REQUEST),
  TOO_LARGE("guard-size", "too-long", HttpStatus.CONTENT_TOO_LARGE),
  NOT_ACCEPTABLE("fhir-not-acceptable", "not-supported", HttpStatus.NOT_ACCEPTABLE),
  MEDIA_TYPE("fhir-media-type", "not-supported", HttpStatus.UNSUPPORTED_MEDIA_TYPE),
  NOT_TAKEN("fhir-not-taken", "not-supported", HttpStatus.UNPROCESSABLE_CONTENT),
  NOT_CONFORMANT("fhir-structure", "invalid", HttpStatus.UNPROCESSABLE_CONTENT),
  CHANGED("fhir-changed", "conflict", HttpStatus.CONFLICT),
  TOO_MANY("fhir-too-many", "throttled", HttpStatus.TOO_MANY_REQUESTS),
  BUSY("fhir-busy", "transient", HttpStatus.SERVICE_UNAVAILABLE),
  FAILED("fhir-failed", "exception", HttpStatus.INTERNAL_SERVER_ERROR);

  private final String code;
  private final String type;
  private final HttpStatus status;

  Reason(String code, String type, HttpStatus status) {
    this.code = code;
    this.type = type;
    this.status = status;
  }

  String code() {
    return code;
  }

  String type() {
    return type;
  }

  HttpStatus status() {
    return status;
  }
}
