package org.intercusp.summary.content;

import java.time.LocalDate;
import org.intercusp.rules.Examination;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.StageKind;

/** Whether a family may read the hours of the stage, or is told to ask first, and whom. */
enum Wearing {
  /** The hours of the stage hold. */
  AS_PLANNED("plan"),
  /** A sign of harm waits for the clinician's answer, so nobody is told to wear the brace on. */
  PAUSED("pause"),
  /** Another clinic goes on with the treatment and sets the hours. */
  MOVED("moved"),
  /** It ended before its aim. */
  STOPPED("stopped"),
  /** It is completed and the planned time of retention is over, or no retention is known of. */
  OVER("over");

  private final String key;

  Wearing(String key) {
    this.key = key;
  }

  /** Its name in the texts. */
  String key() {
    return key;
  }

  /** Whether a brace is worn on, by whoever sets its hours. */
  boolean goesOn() {
    return this == AS_PLANNED || this == MOVED;
  }

  static Wearing of(Course course, Examination examination) {
    if (examination.harmUnanswered()) {
      return PAUSED;
    }
    Completion completion = course.treatment().completion();
    if (completion == null) {
      return AS_PLANNED;
    }
    return switch (completion.status()) {
      case IN_TREATMENT -> AS_PLANNED;
      case COMPLETED -> retained(course) ? AS_PLANNED : OVER;
      case TRANSFERRED -> MOVED;
      case PATIENT_STOPPED, LOST_TO_FOLLOW_UP, DISCONTINUED_BY_CLINICIAN -> STOPPED;
    };
  }

  /** A clinic may call a treatment completed as retention begins; its nights go on as planned. */
  private static boolean retained(Course course) {
    LocalDate end = course.stageEnd().orElse(LocalDate.MIN);
    return course.stage().filter(stage -> stage.kind() == StageKind.RETENTION).isPresent()
        && course.on().isBefore(end);
  }
}
