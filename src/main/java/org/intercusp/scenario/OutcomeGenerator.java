package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.Submission;
import org.jspecify.annotations.Nullable;

/**
 * Invented outcome records of 24 clinics, all valid, the same for the same count and seed on every
 * machine; the first ten of a thousand are those of ten. Some cases are submitted twice by two
 * submitters, some corrected, some moved to another clinic and go on there, some patients come back
 * for a second treatment. Shares are common practice, no source. Nobody in them exists.
 */
public final class OutcomeGenerator {

  private static final String PATIENTS = "https://registry.example/patients";
  private static final String HOSPITALS = "https://registry.example/hospitals";

  /** What one record is to the record before it. */
  private enum Tie {
    NONE,
    TRANSFER,
    TWO_SUBMITTERS,
    CORRECTION,
    SECOND_TREATMENT
  }

  /** Records, made one by one as the stream is consumed. */
  public Stream<Submission> records(int count, long seed) {
    return IntStream.range(0, count).mapToObj(index -> record(seed, index));
  }

  private static Tie tie(long seed, int index) {
    // Of two neighbours only the odd one hangs on the other, so no chain is longer than two.
    if (index % 2 == 0) {
      return Tie.NONE;
    }
    double at = new Draw(seed ^ 0x71E5L, index).between(0, 1);
    return at < 0.03
        ? Tie.TRANSFER
        : at < 0.04
            ? Tie.TWO_SUBMITTERS
            : at < 0.05 ? Tie.CORRECTION : at < 0.06 ? Tie.SECOND_TREATMENT : Tie.NONE;
  }

  private static Submission record(long seed, int index) {
    Tie tie = tie(seed, index);
    int own = tie == Tie.NONE ? index : index - 1;
    String number = Long.toUnsignedString(seed, 36) + "-" + (own + 1);
    Draw draw = new Draw(seed, own);
    Practice practice = Practice.drawn(seed, draw);
    CourseRun run = new CourseRun(draw, practice);
    Identifier clinic = practice.identifier();
    return switch (tie) {
      case NONE ->
          tie(seed, index + 1) == Tie.TRANSFER
              ? made(clinic, "S-" + number, null, clinic, "T-" + number, number, run.untilMove())
              : made(clinic, "S-" + number, null, clinic, "T-" + number, number, run.whole());
      case TRANSFER -> {
        Identifier next = practice.next(seed).identifier();
        yield made(next, "S-" + number, null, next, "T-" + number + "-b", number, run.whole());
      }
      case TWO_SUBMITTERS -> {
        Identifier hospital = new Identifier(HOSPITALS, "hospital-1");
        yield made(hospital, "H-" + number, null, clinic, "T-" + number, number, run.whole());
      }
      case CORRECTION ->
          made(clinic, "S-" + number, 2, clinic, "T-" + number, number, corrected(run.whole()));
      case SECOND_TREATMENT -> second(clinic, number, new Draw(seed, index), practice, run.whole());
    };
  }

  /** The same patient again in another year, with the birth date that is known. */
  private static Submission second(
      Identifier clinic, String number, Draw draw, Practice practice, Course before) {
    Course other = new CourseRun(draw, practice).whole();
    LocalDate fitted = other.firstFittedOn();
    boolean possible = fitted != null && before.birthDate().plusYears(8).isBefore(fitted);
    Course again = possible ? born(other, before.birthDate()) : before;
    return made(clinic, "S-" + number + "-2", null, clinic, "T-" + number + "-2", number, again);
  }

  private static Course corrected(Course c) {
    return copy(c, c.birthDate(), c.breakages() + 1);
  }

  private static Course born(Course c, LocalDate birthDate) {
    return copy(c, birthDate, c.breakages());
  }

  private static Course copy(Course c, LocalDate birthDate, int breakages) {
    return new Course(
        birthDate,
        c.sex(),
        c.appliance(),
        c.firstFittedOn(),
        c.growthStage(),
        c.status(),
        c.reason(),
        c.decidedOn(),
        c.lastAttendedOn(),
        c.stageDays(),
        c.reviews(),
        c.wearReported(),
        c.wearMeasured(),
        breakages,
        c.adverseEvents(),
        c.assessments());
  }

  private static Submission made(
      Identifier submitter,
      String submission,
      @Nullable Integer revision,
      Identifier clinic,
      String treatment,
      String number,
      Course course) {
    LocalDate fitted = course.firstFittedOn();
    LocalDate asked = fitted == null ? Mouth.AS_OF : fitted.minusDays(10);
    return new Submission(
        Submission.Kind.CASE,
        submitter,
        submission,
        revision,
        clinic,
        treatment,
        new Identifier(PATIENTS, "P-" + number),
        new Submission.Agreement(asked, null),
        course);
  }
}
