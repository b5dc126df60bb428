package org.intercusp.treatment.submission;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.intercusp.finding.Pointer;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Outcome.Phase;
import org.jspecify.annotations.Nullable;

/**
 * What an outcome record must be beyond its form. Common practice, no source, save for the order of
 * dates, which is that of the rule {@code date-order}.
 */
final class SubmissionRules {

  /** Dates are out of order or lie ahead. */
  static final String DATES = "record-date-order";

  /** A withdrawal says when and carries nothing else; a case was not withdrawn. */
  static final String CONSENT = "record-consent";

  /** A phase or an adverse event stands twice. */
  static final String TWICE = "record-twice";

  /** Stages last longer together than the treatment did. */
  static final String STAGES = "record-stages-too-long";

  /** A state that the rest contradicts. */
  static final String STATE = "record-state";

  /** A second scoring without a first. */
  static final String AGAIN = "record-scored-again";

  /** Visits fall a few days off the plan. */
  private static final int SLACK_DAYS = 31;

  /** Beyond the age at which anybody is fitted with a first set of blocks. */
  private static final int MOST_YEARS = 80;

  private static final Pointer COURSE = Pointer.of("course");

  private final LocalDate today;
  private final List<Refusal> broken = new ArrayList<>();

  private SubmissionRules(LocalDate today) {
    this.today = today;
  }

  static List<Refusal> broken(Submission submission, LocalDate today) {
    SubmissionRules rules = new SubmissionRules(today);
    rules.consent(submission);
    Course course = submission.course();
    if (course != null) {
      rules.dates(course);
      rules.state(course);
      rules.stages(course);
      rules.assessments(course);
      rules.harm(course);
    }
    return rules.broken;
  }

  private void add(String code, Pointer at, String expected) {
    broken.add(new Refusal(code, at, expected));
  }

  private void consent(Submission submission) {
    LocalDate recorded = submission.consent().recordedOn();
    LocalDate withdrawn = submission.consent().withdrawnOn();
    notAfter(recorded, today, Pointer.of("consent", "recordedOn"), "the day of submission");
    Pointer at = Pointer.of("consent", "withdrawnOn");
    if (submission.kind() == Submission.Kind.CASE) {
      if (withdrawn != null) {
        add(CONSENT, at, "no case without consent; a withdrawal is a record of that kind");
      }
      return;
    }
    if (withdrawn == null) {
      add(CONSENT, at, "the day of the withdrawal");
    }
    notAfter(recorded, withdrawn, Pointer.of("consent", "recordedOn"), "the withdrawal");
    notAfter(withdrawn, today, at, "the day of submission");
    if (submission.course() != null) {
      add(CONSENT, COURSE, "no course in a withdrawal");
    }
  }

  private void dates(Course course) {
    LocalDate fitted = course.firstFittedOn();
    notAfter(course.birthDate(), fitted, COURSE.child("birthDate"), "the first fitting");
    notAfter(course.birthDate(), today, COURSE.child("birthDate"), "the day of submission");
    if (fitted != null && fitted.isAfter(course.birthDate().plusYears(MOST_YEARS))) {
      add(DATES, COURSE.child("birthDate"), "at most " + MOST_YEARS + " years at first fitting");
    }
    LocalDate attended = course.lastAttendedOn();
    LocalDate decided = course.decidedOn();
    notAfter(fitted, decided, COURSE.child("firstFittedOn"), "the decision");
    notAfter(fitted, attended, COURSE.child("firstFittedOn"), "the last attendance");
    notAfter(attended, decided, COURSE.child("lastAttendedOn"), "the decision");
    notAfter(fitted, today, COURSE.child("firstFittedOn"), "the day of submission");
    notAfter(decided, today, COURSE.child("decidedOn"), "the day of submission");
    notAfter(attended, today, COURSE.child("lastAttendedOn"), "the day of submission");
  }

  private void notAfter(
      @Nullable LocalDate first, @Nullable LocalDate second, Pointer at, String what) {
    if (first != null && second != null && first.isAfter(second)) {
      add(DATES, at, "a date not after " + what);
    }
  }

  private void state(Course course) {
    CourseStatus status = course.status();
    if (status == CourseStatus.COMPLETED && course.firstFittedOn() == null) {
      add(STATE, COURSE.child("firstFittedOn"), "a first fitting, since the status is completed");
    }
    boolean unknown = status == CourseStatus.UNKNOWN;
    boolean kept = status == CourseStatus.IN_TREATMENT || status == CourseStatus.COMPLETED;
    if ((kept || unknown) && course.reason() != null) {
      add(STATE, COURSE.child("reason"), "no reason, since nobody says it was given up");
    }
    if (unknown && course.decidedOn() != null) {
      add(STATE, COURSE.child("decidedOn"), "no day, since nobody knows whether it ended");
    }
  }

  private void stages(Course course) {
    LocalDate fitted = course.firstFittedOn();
    Course.StageDays days = course.stageDays();
    if (fitted == null || days == null) {
      return;
    }
    LocalDate decided = course.decidedOn();
    long span = ChronoUnit.DAYS.between(fitted, decided == null ? today : decided);
    int sum =
        Stream.of(days.active(), days.support(), days.fixed(), days.retention())
            .mapToInt(each -> each == null ? 0 : each)
            .sum();
    if (sum > span + SLACK_DAYS) {
      add(STAGES, COURSE.child("stageDays"), "stages no longer together than the treatment");
    }
  }

  private void assessments(Course course) {
    Set<Phase> seen = EnumSet.noneOf(Phase.class);
    for (int i = 0; i < course.assessments().size(); i++) {
      Course.Assessment each = course.assessments().get(i);
      Pointer at = COURSE.child("assessments").child(i);
      if (!seen.add(each.phase())) {
        add(TWICE, at.child("phase"), "each phase once");
      }
      if (each.parAgain() != null && each.par() == null) {
        add(AGAIN, at.child("parAgain"), "a first scoring beside the second");
      }
      LocalDate fitted = course.firstFittedOn();
      notAfter(course.birthDate(), each.date(), at.child("date"), "birth");
      notAfter(each.date(), today, at.child("date"), "the day of submission");
      if (each.phase() == Phase.START) {
        notAfter(each.date(), fitted, at.child("date"), "the first fitting");
      } else if (fitted != null && each.date().isBefore(fitted)) {
        add(DATES, at.child("date"), "a date not before the first fitting");
      }
    }
  }

  private void harm(Course course) {
    Set<HarmEvent.Code> seen = EnumSet.noneOf(HarmEvent.Code.class);
    for (int i = 0; i < course.adverseEvents().size(); i++) {
      Course.HarmCount each = course.adverseEvents().get(i);
      Pointer at = COURSE.child("adverseEvents").child(i);
      if (!seen.add(each.code())) {
        add(TWICE, at.child("code"), "each adverse event once, with its count");
      }
      if (each.serious() > each.count()) {
        add(STATE, at.child("serious"), "no more serious ones than there were");
      }
    }
  }
}
