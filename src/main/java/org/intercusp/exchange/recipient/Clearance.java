package org.intercusp.exchange.recipient;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.ConsentScope;

/**
 * Decides whether a stored treatment may go to a recipient, and makes what is sent. It is asked
 * when a delivery is queued and again just before it is sent, since consent and the day may have
 * changed.
 */
@FunctionalInterface
public interface Clearance {

  /** The answer for a treatment and a recipient of this kind. */
  Answer clear(StoredTreatment treatment, ConsentScope scope);

  /**
   * The same where the treatment may have a newer version: consent is what the newest one says, and
   * nothing of an older one goes past it.
   */
  default Answer clear(StoredTreatment treatment, StoredTreatment newest, ConsentScope scope) {
    if (newest.version() > treatment.version()) {
      Optional<Finding> missing = consent(newest, scope);
      if (missing.isPresent()) {
        return new Answer.Stopped(List.of(missing.get()));
      }
    }
    return clear(treatment, scope);
  }

  /**
   * Why consent, as a version says it, does not cover recipients of this kind today; empty where it
   * does. Where consent is not told from the rest, whatever stops the version is taken for it.
   */
  default Optional<Finding> consent(StoredTreatment treatment, ConsentScope scope) {
    return clear(treatment, scope) instanceof Answer.Stopped stopped
        ? stopped.findings().stream().findFirst()
        : Optional.empty();
  }

  /**
   * Whether consent that was recorded does not cover recipients of this kind any more, or will not.
   * Who was given the treatment before is told so.
   */
  default Optional<Ended> ended(StoredTreatment treatment, ConsentScope scope) {
    return Optional.empty();
  }

  /**
   * Whether a version holds a sign of harm that nobody has answered and the version before it did
   * not hold. It goes at once to every recipient that may have it, whoever brought it.
   *
   * @param before asked only where there is such a sign; empty where there was none
   */
  default boolean bringsHarm(StoredTreatment now, Supplier<Optional<StoredTreatment>> before) {
    return false;
  }

  /**
   * Stands before what such a recipient is told.
   *
   * @throws org.intercusp.conformance.NotConformant when it must not leave
   */
  default void check(Bundle notice) {}

  /**
   * Consent that ended.
   *
   * @param from the first day it does not hold
   * @param transaction the whole treatment, unchecked, of which only the consent is sent
   */
  record Ended(LocalDate from, Bundle transaction) {

    /** When that day begins. */
    public Instant begins(Clock clock) {
      return from.atStartOfDay(clock.getZone()).toInstant();
    }
  }

  /** What the answer can be. */
  sealed interface Answer {

    /** It may go, as this transaction Bundle. */
    record Ready(Bundle transaction) implements Answer {}

    /** It may not, because of these findings. */
    record Stopped(List<Finding> findings) implements Answer {
      public Stopped {
        findings = List.copyOf(findings);
      }
    }
  }
}
