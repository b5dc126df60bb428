package org.intercusp.exchange.wire;

/** Why a call to a records server came to nothing. */
public enum Difficulty {
  /** No connection, or one that broke. */
  DOWN(true),
  /** No whole answer before the deadline. */
  SLOW(true),
  /** 408, 425, 429 or 503: come again. */
  BUSY(true),
  /** Another 5xx. */
  FAILED(true),
  /** An answer that is not FHIR, such as a web page. */
  NOT_FHIR(true),
  /** 409 or 412, and again after looking anew: others write the same. */
  CONTENDED(true),
  /** A write had no answer, and what the server holds does not show it: it may still come. */
  UNSETTLED(true),
  /** The server took a write and does not find what it took: what it holds cannot be told. */
  UNDECIDED(false),
  /** An answer longer than is taken, or one the guard refuses. */
  UNACCEPTABLE(false),
  /** A link to another host, which is never followed. */
  ELSEWHERE(false),
  /** It speaks another version of FHIR, or does not take what has to be sent. */
  UNSUITABLE(false),
  /** Any other 4xx. */
  REFUSED(false);

  private final boolean passing;

  Difficulty(boolean passing) {
    this.passing = passing;
  }

  /** Whether another try later may do. */
  public boolean isPassing() {
    return passing;
  }
}
