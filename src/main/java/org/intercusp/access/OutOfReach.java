package org.intercusp.access;

/** Something was to be written for a clinic that the caller may not touch. */
public final class OutOfReach extends RuntimeException {

  private static final long serialVersionUID = 1L;

  OutOfReach() {
    super("The clinic is not in the caller's reach");
  }
}
