package org.intercusp.treatment;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/** How and when the treatment ended, or that it goes on. */
public record Completion(
    Status status, @Nullable Reason reason, LocalDate decidedOn, LocalDate lastAttendedOn) {

  /** Where the treatment stands. */
  public enum Status implements Coded {
    IN_TREATMENT("in-treatment"),
    COMPLETED("completed"),
    PATIENT_STOPPED("patient-stopped"),
    LOST_TO_FOLLOW_UP("lost-to-follow-up"),
    DISCONTINUED_BY_CLINICIAN("discontinued-by-clinician"),
    TRANSFERRED("transferred");

    private final String code;

    Status(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }

  /** Why it ended. */
  public enum Reason implements Coded {
    NON_WEAR("non-wear"),
    DISCOMFORT("discomfort"),
    BREAKAGE("breakage"),
    ADVERSE_EVENT("adverse-event"),
    POOR_RESPONSE("poor-response"),
    POOR_HYGIENE("poor-hygiene"),
    MOVED("moved"),
    OTHER("other");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }
}
