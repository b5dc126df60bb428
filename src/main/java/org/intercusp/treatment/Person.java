package org.intercusp.treatment;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** A clinician or a referring dentist. */
public record Person(
    Identifier identifier, String family, List<String> given, @Nullable String organisation) {

  public Person {
    given = List.copyOf(given);
  }
}
