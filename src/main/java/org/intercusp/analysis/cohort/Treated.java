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
 * @param lastSeenOn of a case of which nobody has said; the completion has its own
 */
public record Treated(
    LocalDate fittedOn, @Nullable Completion completion, @Nullable LocalDate lastSeenOn) {

  public Treated(LocalDate fittedOn, @Nullable Completion completion) {
    this(fittedOn, completion, null);
  }

  /** Where the case stood at the cut-off; what was decided later had not happened yet. */
  Standing at(LocalDate cutOff) {
    if (completion == null) {
      return lastSeenOn != null && lastSeenOn.isAfter(cutOff)
          ? Standing.GOING_ON
          : Standing.UNKNOWN;
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
   * Days from the first active fitting for one of the curves; empty when the case was fitted after
   * the cut-off, or nobody has said how it stands and when it was last seen. A transferred case is
   * watched until last attended, and so is one of which nobody has said.
   */
  Optional<Followed> followed(LocalDate cutOff, Curve curve) {
    if (fittedOn.isAfter(cutOff)) {
      return Optional.empty();
    }
    if (completion == null) {
      return Optional.ofNullable(lastSeenOn)
          .map(seen -> until(seen.isAfter(cutOff) ? cutOff : seen, Ending.CENSORED));
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
