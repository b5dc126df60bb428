package org.intercusp.web.api;

import java.util.stream.Collectors;
import org.intercusp.access.Caller;
import org.intercusp.access.Reach;
import org.intercusp.registry.intake.Senders;
import org.intercusp.treatment.Identifier;

/** For which submitters a caller may hand outcomes in, the same at every door. */
public final class OutcomeSenders {

  private OutcomeSenders() {}

  /** Where people log in they submit for their own clinics alone. */
  public static Senders of(Caller caller) {
    return caller.reach() instanceof Reach.Clinics few
        ? Senders.of(
            few.clinics().stream()
                .map(one -> new Identifier(one.system(), one.value()))
                .collect(Collectors.toSet()))
        : Senders.ANYBODY;
  }
}
