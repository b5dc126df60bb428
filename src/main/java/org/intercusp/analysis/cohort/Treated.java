package org.intercusp.analysis.cohort;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.intercusp.analysis.agreement.Followed;
import org.intercusp.analysis.agreement.Followed.Ending;
import org.intercusp.treatment.Completion;
import org.jspecify.annotations.Nullable;

/**
 * One case of a registry.
 *
 * @param fittedOn first active fitting
 * @param completion how it ended or that it goes on; absent when nobody has said
 */
public record Treated(LocalDate fittedOn, @Nullable Completion completion) {

  /** Where the case stood at the cut-off; what was decided later had not happened yet. */
  Standing at(LocalDate cutOff) {
    if (completion == null) {
      return Standing.UNKNOWN;
    }
    if (completion.decidedOn().isAfter(cutOff)) {
      return Standing.GOING_ON;
    }
    return switch (completion.status()) {
      case IN_TREATMENT -> Standing.GOING_ON;
      case COMPLETED -> Standing.COMPLETED;
      case PATIENT_STOPPED, LOST_TO_FOLLOW_UP, DISCONTINUED_BY_CLINICIAN -> Standing.DISCONTINUED;
      case TRANSFERRED -> Standing.TRANSFERRED;
    };
  }

  /**
   * Days from the first active fitting for one of the curves; empty when nobody has said how the
   * case stands or it was fitted after the cut-off. A transferred case is watched until last
   * attended.
   */
  Optional<Followed> followed(LocalDate cutOff, Curve curve) {
    if (completion == null || fittedOn.isAfter(cutOff)) {
      return Optional.empty();
    }
    return Optional.of(
        switch (at(cutOff)) {
          case COMPLETED -> until(completion.decidedOn(), Ending.EVENT);
          case DISCONTINUED ->
              switch (curve) {
                case ANY_END -> until(completion.decidedOn(), Ending.EVENT);
                case COMPLETION -> until(completion.lastAttendedOn(), Ending.COMPETING);
              };
          case TRANSFERRED -> until(completion.lastAttendedOn(), Ending.CENSORED);
          case GOING_ON, UNKNOWN -> until(cutOff, Ending.CENSORED);
        });
  }

  private Followed until(LocalDate day, Ending ending) {
    return new Followed(Math.max(0, ChronoUnit.DAYS.between(fittedOn, day)), ending);
  }

  /** What a case has come to. */
  enum Standing {
    GOING_ON,
    COMPLETED,
    DISCONTINUED,
    TRANSFERRED,
    UNKNOWN
  }

  /** Which end a curve waits for. */
  enum Curve {
    ANY_END,
    COMPLETION
  }
}
