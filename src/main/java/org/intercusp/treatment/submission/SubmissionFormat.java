package org.intercusp.treatment.submission;

import static org.intercusp.treatment.Measures.DATE;
import static org.intercusp.treatment.Measures.MOUTH;
import static org.intercusp.treatment.Measures.WEAR;
import static org.intercusp.treatment.Measures.code;

import org.intercusp.finding.Source;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeFormat;
import org.intercusp.treatment.PeopleFormat;
import org.intercusp.treatment.Sex;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Numbers;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;

/**
 * The outcome record, described once for reader, writer and schema. Ranges keep slips of the pen
 * out: common practice, no source.
 */
final class SubmissionFormat {

  static final Source SOURCE = Source.published("outcome record format " + Submission.FORMAT);

  /** Ten years, beyond any course of treatment. */
  private static final Shape<Integer> DAYS = Numbers.whole(0, 3660);

  private static final Shape<Integer> TIMES = Numbers.whole(0, 500);

  private static final Shape<Course.StageDays> STAGE_DAYS =
      Fields.of(Course.StageDays.class)
          .optional("active", DAYS)
          .optional("support", DAYS)
          .optional("fixed", DAYS)
          .optional("retention", DAYS)
          .defined()
          .build();

  private static final Shape<Course.HarmCount> HARM =
      Fields.of(Course.HarmCount.class)
          .required("code", code(HarmEvent.Code.values()))
          .required("count", Numbers.whole(1, 100))
          .required("serious", Numbers.whole(0, 100))
          .defined()
          .build();

  private static final Shape<Course.Assessment> ASSESSMENT =
      Fields.of(Course.Assessment.class)
          .required("phase", code(Outcome.Phase.values()))
          .required("date", DATE)
          .optional("overjet", MOUTH)
          .optional("overbite", MOUTH)
          .optional("par", OutcomeFormat.PAR)
          .optional("parAgain", OutcomeFormat.PAR)
          .optional("dhc", OutcomeFormat.DHC)
          .optional("icon", OutcomeFormat.ICON)
          .optional("aesthetic", OutcomeFormat.AESTHETIC)
          .atLeastOne("overjet", "overbite", "par", "dhc", "icon", "aesthetic")
          .defined()
          .build();

  private static final Shape<Course> COURSE =
      Fields.of(Course.class)
          .required("birthDate", DATE)
          .required("sex", code(Sex.values()))
          .required("appliance", code(ApplianceType.values()))
          .optional("firstFittedOn", DATE)
          .optional("growthStage", code(GrowthStage.values()))
          .required("status", code(CourseStatus.values()))
          .optional("reason", code(Completion.Reason.values()))
          .optional("decidedOn", DATE)
          .optional("lastAttendedOn", DATE)
          .optional("stageDays", STAGE_DAYS)
          .required("reviews", TIMES)
          .optional("wearReported", WEAR)
          .optional("wearMeasured", WEAR)
          .required("breakages", TIMES)
          .optionalList("adverseEvents", Items.upTo(11, HARM))
          .optionalList("assessments", Items.upTo(4, ASSESSMENT))
          .requiredWhere("status", CourseStatus.COMPLETED.code(), "decidedOn")
          .defined()
          .build();

  private static final Shape<Submission.Agreement> AGREEMENT =
      Fields.of(Submission.Agreement.class)
          .required("recordedOn", DATE)
          .optional("withdrawnOn", DATE)
          .defined()
          .build();

  static final Shape<Submission> SUBMISSION =
      Fields.of(Submission.class)
          .constant("format", Submission.FORMAT)
          .required("kind", code(Submission.Kind.values()))
          .required("submitter", PeopleFormat.IDENTIFIER)
          .required("submission", Words.id())
          .optional("revision", Numbers.whole(1, 100_000))
          .required("clinic", PeopleFormat.IDENTIFIER)
          .required("treatment", Words.id())
          .required("patient", PeopleFormat.IDENTIFIER)
          .required("consent", AGREEMENT)
          .optional("course", COURSE)
          .requiredWhere("kind", Submission.Kind.CASE.code(), "course")
          .build();

  private SubmissionFormat() {}
}
