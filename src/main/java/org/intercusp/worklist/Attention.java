package org.intercusp.worklist;

import java.util.Locale;

/** Why a treatment needs somebody's attention. */
public enum Attention {
  /** A sign of harm that no clinician has answered yet. */
  URGENT,
  /** A finding that stops deliveries: a refusal, or an error nobody accepted. */
  ERRORS,
  /** The next review is past its day by more than the clinic's grace. */
  OVERDUE,
  /** A delivery was refused, is held, or was given up, and no newer one took its place. */
  DELIVERY,
  /** A recipient's people changed something, and nobody has decided on it yet. */
  PROPOSAL,
  /** Any of these. */
  ANY;

  /** As it stands in an address. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }
}
