package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Completion.Reason;
import org.intercusp.treatment.Completion.Status;
import org.jspecify.annotations.Nullable;

/** How an invented treatment that was given up ended. Shares are common practice, no source. */
final class Ending {

  private Ending() {}

  static Completion droppedOut(Draw draw, double wear, LocalDate on, LocalDate lastAttendedOn) {
    if (draw.chance(0.1)) {
      return new Completion(Status.TRANSFERRED, Reason.MOVED, on, lastAttendedOn);
    }
    if (draw.chance(0.3)) {
      return new Completion(Status.LOST_TO_FOLLOW_UP, null, on, lastAttendedOn);
    }
    if (draw.chance(0.25)) {
      Reason reason =
          wear < 6
              ? Reason.NON_WEAR
              : draw.pick(List.of(Reason.POOR_RESPONSE, Reason.POOR_HYGIENE, Reason.ADVERSE_EVENT));
      return new Completion(Status.DISCONTINUED_BY_CLINICIAN, reason, on, lastAttendedOn);
    }
    @Nullable Reason reason =
        draw.chance(0.1)
            ? null
            : wear < 6
                ? Reason.NON_WEAR
                : draw.pick(List.of(Reason.DISCOMFORT, Reason.BREAKAGE, Reason.OTHER));
    return new Completion(Status.PATIENT_STOPPED, reason, on, lastAttendedOn);
  }
}
