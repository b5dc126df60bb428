package org.intercusp.treatment;

import java.util.List;
import org.intercusp.measure.Length;

/** The five anterior contacts of each arch, from the patient's right to left. */
public record Contacts(List<Contact> upper, List<Contact> lower) {

  public Contacts {
    upper = List.copyOf(upper);
    lower = List.copyOf(lower);
  }

  /** One contact: displaced by so much, a tooth impacted there, or not measured. */
  public sealed interface Contact {

    /** Displaced by so many millimetres. */
    record Displaced(Length by) implements Contact {}

    /** A tooth is impacted at this contact. */
    record Impacted() implements Contact {}

    /** Not measured. */
    record Unmeasured() implements Contact {}
  }
}
