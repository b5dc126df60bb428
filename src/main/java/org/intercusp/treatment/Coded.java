package org.intercusp.treatment;

/** One of a closed list of codes as the treatment file writes them. */
public interface Coded {

  /** The code as it stands in the file. */
  String code();
}
