package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Consent to pass the record on, by scope; withdrawn from {@code withdrawnOn} on. */
public record Consent(
    boolean given,
    String givenBy,
    LocalDate recordedOn,
    @Nullable LocalDate withdrawnOn,
    List<ConsentScope> scope) {

  public Consent {
    scope = List.copyOf(scope);
  }
}
