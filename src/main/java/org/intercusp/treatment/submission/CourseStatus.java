package org.intercusp.treatment.submission;

import java.util.Arrays;
import java.util.Objects;
import org.intercusp.treatment.Coded;
import org.intercusp.treatment.Completion;
import org.jspecify.annotations.Nullable;

/**
 * Where a course of treatment stands: as its clinic decided, or that nobody knows whether it ended.
 * A patient whom the clinic gave up as lost is not of these but lost to follow-up, which is an end.
 */
public enum CourseStatus implements Coded {
  IN_TREATMENT(Completion.Status.IN_TREATMENT),
  COMPLETED(Completion.Status.COMPLETED),
  PATIENT_STOPPED(Completion.Status.PATIENT_STOPPED),
  LOST_TO_FOLLOW_UP(Completion.Status.LOST_TO_FOLLOW_UP),
  DISCONTINUED_BY_CLINICIAN(Completion.Status.DISCONTINUED_BY_CLINICIAN),
  TRANSFERRED(Completion.Status.TRANSFERRED),
  UNKNOWN(null);

  private final Completion.@Nullable Status decided;

  CourseStatus(Completion.@Nullable Status decided) {
    this.decided = decided;
  }

  public static CourseStatus of(Completion.Status decided) {
    return Arrays.stream(values())
        .filter(each -> each.decided == decided)
        .findFirst()
        .orElseThrow();
  }

  @Override
  public String code() {
    return decided == null ? "unknown" : Objects.requireNonNull(decided).code();
  }
}
