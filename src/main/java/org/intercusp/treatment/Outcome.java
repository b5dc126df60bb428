package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.measure.Decimal;
import org.jspecify.annotations.Nullable;

/**
 * An outcome scoring at one phase of treatment, by findings, by scores, or by both.
 *
 * @param repeatOf id of the outcome this scores a second time; never a second case
 */
public record Outcome(
    String id,
    LocalDate date,
    Phase phase,
    Medium source,
    Identifier examiner,
    @Nullable String repeatOf,
    @Nullable OutcomeFindings findings,
    @Nullable OutcomeScores scores,
    List<ReportedOutcome> reportedOutcomes) {

  public Outcome {
    reportedOutcomes = List.copyOf(reportedOutcomes);
  }

  /** When in the treatment. */
  public enum Phase implements Coded {
    START("start"),
    END_ACTIVE("end-active"),
    END("end"),
    RETENTION_12_MONTHS("retention-12mo");

    private final String code;

    Phase(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }

  /** What was scored. */
  public enum Medium implements Coded {
    PLASTER("plaster"),
    SCAN("scan"),
    MOUTH("mouth");

    private final String code;

    Medium(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }

  /** Total of a questionnaire answered by patient or carer; items are licensed and not kept. */
  public record ReportedOutcome(
      String instrument,
      String version,
      AnsweredBy answeredBy,
      Decimal total,
      Decimal min,
      Decimal max) {

    /** Who answered. */
    public enum AnsweredBy implements Coded {
      PATIENT("patient"),
      CARER("carer");

      private final String code;

      AnsweredBy(String code) {
        this.code = code;
      }

      @Override
      public String code() {
        return code;
      }
    }
  }
}
