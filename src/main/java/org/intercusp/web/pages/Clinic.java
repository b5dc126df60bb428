package org.intercusp.web.pages;

import org.intercusp.archive.TreatmentKey;

/** A clinic as an address names it. */
final class Clinic {

  private Clinic() {}

  static String of(TreatmentKey key) {
    return key.clinic().system() + "|" + key.clinic().value();
  }
}
