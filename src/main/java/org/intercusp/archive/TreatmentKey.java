package org.intercusp.archive;

import org.intercusp.access.Clinic;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Treatment;

/**
 * What a stored treatment is found by: the clinic that keeps it and the id it has there. Two
 * clinics with a treatment T1 never meet.
 *
 * @param clinic the clinic's identifier; at most 400 and 200 characters
 * @param treatment the treatment's id in that clinic, at most 200 characters
 */
public record TreatmentKey(Identifier clinic, String treatment)
    implements Comparable<TreatmentKey> {

  // The widths of the columns: a key must fit the 2,704 bytes of a PostgreSQL index row.
  private static final int LONGEST_SYSTEM = 400;
  private static final int LONGEST_VALUE = 200;

  public TreatmentKey {
    within("The clinic's system", clinic.system(), LONGEST_SYSTEM);
    within("The clinic's value", clinic.value(), LONGEST_VALUE);
    within("The treatment's id", treatment, LONGEST_VALUE);
  }

  /** The key of a treatment file. */
  public static TreatmentKey of(Treatment treatment) {
    return new TreatmentKey(treatment.clinic().identifier(), treatment.id());
  }

  /** The clinic as callers reach it. */
  public Clinic reached() {
    return new Clinic(clinic.system(), clinic.value());
  }

  @Override
  public int compareTo(TreatmentKey other) {
    int bySystem = clinic.system().compareTo(other.clinic.system());
    if (bySystem != 0) {
      return bySystem;
    }
    int byValue = clinic.value().compareTo(other.clinic.value());
    return byValue != 0 ? byValue : treatment.compareTo(other.treatment);
  }

  private static void within(String what, String text, int longest) {
    if (text.isBlank() || text.length() > longest) {
      throw new IllegalArgumentException(
          what + " has " + text.length() + " characters; 1 to " + longest + " are taken");
    }
  }
}
