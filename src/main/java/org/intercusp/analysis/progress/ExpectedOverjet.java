package org.intercusp.analysis.progress;

import java.time.LocalDate;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.ActivePhase;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/**
 * The overjet the trial behind {@link Expected} lets one expect, by the wear of the active stage
 * the patient is in: none in later stages, nor past the months that were measured.
 */
public final class ExpectedOverjet {

  /** So long the trial measured: {@link Expected#SOURCE}. */
  private static final int MONTHS = 12;

  private ExpectedOverjet() {}

  /** At the next visit, for who is in an active stage on the day. */
  public static Reckoned<Length> atNextVisit(Treatment treatment, LocalDate on) {
    return OverjetCourse.of(treatment, on)
        .flatMap(
            course ->
                ActivePhase.on(treatment, on)
                    .flatMap(
                        stage ->
                            NextReview.of(treatment)
                                .flatMap(next -> expected(course, stage, next.by()))));
  }

  /** At the last review in an active stage, to hold beside what was measured then. */
  public static Reckoned<Length> atLastReview(Treatment treatment, LocalDate on) {
    return OverjetCourse.of(treatment, on)
        .flatMap(
            course ->
                course
                    .last()
                    .<Reckoned<Length>>map(review -> expected(treatment, course, review))
                    .orElseGet(() -> Reckoned.lacking("no review in an active stage")));
  }

  private static Reckoned<Length> expected(
      Treatment treatment, OverjetCourse course, Review review) {
    return treatment.stages().stream()
        .filter(stage -> stage.id().equals(review.stageId()))
        .findFirst()
        .map(stage -> expected(course, stage, review.date()))
        .orElseGet(() -> Reckoned.lacking("no active stage"));
  }

  private static Reckoned<Length> expected(OverjetCourse course, Stage stage, LocalDate day) {
    HoursPerDay wear = stage.wearHours();
    if (wear == null) {
      return Reckoned.lacking("no wearHours of the active stage");
    }
    if (day.isAfter(course.fitted().plusMonths(MONTHS))) {
      return Reckoned.lacking("the trial measured 12 months");
    }
    return Reckoned.known(Expected.at(wear).overjet(course.atFitting(), course.fitted(), day));
  }
}
