package org.intercusp.registry.store;

/** What became of one submission. */
public enum Verdict {
  /** Not there before. */
  NEW,
  /** There already: the same, or a later revision of it. */
  SAME,
  /** There already, different; this one counts now. */
  REPLACED,
  /** Refused: consent to it was withdrawn, and it is no later revision. */
  WITHDRAWN
}
