package org.intercusp.access;

/** Something was asked for on nobody's behalf: a fault of the program, which is then refused. */
public final class NoCaller extends RuntimeException {

  private static final long serialVersionUID = 1L;

  NoCaller() {
    super("Nobody is bound to this work");
  }
}
