package org.intercusp.cli;

import java.time.Clock;
import java.time.LocalDate;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The day it is: {@code --on}, else the record's {@code asOf}, else today. */
final class Day {

  @Option(
      names = "--on",
      paramLabel = "DATE",
      description = "the day it is (else the record's asOf, else today)")
  @Nullable LocalDate on;

  /** The day a consent is judged at: a withdrawal counts whatever day the record speaks of. */
  LocalDate ofSending(Clock clock) {
    return on != null ? on : LocalDate.now(clock);
  }

  LocalDate of(Treatment treatment, Clock clock) {
    if (on != null) {
      return on;
    }
    return treatment.dayOr(LocalDate.now(clock));
  }
}
