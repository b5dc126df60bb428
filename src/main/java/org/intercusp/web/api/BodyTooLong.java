package org.intercusp.web.api;

import java.io.IOException;

/** The body of a request went on beyond what is taken; whoever reads it reads no further. */
public final class BodyTooLong extends IOException {

  private static final long serialVersionUID = 1L;

  /**
   * Of a body.
   *
   * @param most bytes that are taken
   */
  public BodyTooLong(long most) {
    super("The body is longer than " + most + " bytes");
  }
}
