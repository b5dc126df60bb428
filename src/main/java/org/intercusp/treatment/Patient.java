package org.intercusp.treatment;

import java.time.LocalDate;
import java.time.Period;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The patient.
 *
 * @param allergies {@code acrylic}, {@code nickel} or other text; an empty list says that none is
 *     known, absence that nobody asked
 */
public record Patient(
    Identifier identifier,
    String family,
    List<String> given,
    LocalDate birthDate,
    Sex sex,
    @Nullable List<String> allergies,
    @Nullable Consent consent) {

  public Patient {
    given = List.copyOf(given);
    allergies = allergies == null ? null : List.copyOf(allergies);
  }

  /** Given names and family name, as they are said. */
  public String name() {
    return String.join(" ", given) + " " + family;
  }

  /** Whole years of age on a day: who is born on 29 February is a year older on 1 March. */
  public int age(LocalDate on) {
    return Period.between(birthDate, on).getYears();
  }
}
