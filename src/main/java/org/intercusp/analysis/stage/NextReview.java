package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/**
 * When the patient is due next: the day stated at the last review, else the interval of its stage
 * after it; before the first review 10 to 14 days after fitting (common practice, no source).
 *
 * @param from earliest usual day
 * @param by latest usual day
 * @param stated whether the record states the day
 * @param after the review it follows; empty before the first
 */
public record NextReview(LocalDate from, LocalDate by, boolean stated, Optional<Review> after) {

  private static final int FIRST_FROM_DAYS = 10;
  private static final int FIRST_BY_DAYS = 14;

  /** Lacking when treatment has ended, or nothing has been fitted. */
  public static Reckoned<NextReview> of(Treatment treatment) {
    Completion completion = treatment.completion();
    if (completion != null && completion.status() != Completion.Status.IN_TREATMENT) {
      return Reckoned.lacking("treatment has ended: " + completion.status().code());
    }
    Optional<Review> last = treatment.lastReview();
    if (last.isPresent()) {
      return after(treatment, last.get());
    }
    return StageDates.firstFitting(treatment)
        .<Reckoned<NextReview>>map(
            fitted ->
                Reckoned.known(
                    new NextReview(
                        fitted.plusDays(FIRST_FROM_DAYS),
                        fitted.plusDays(FIRST_BY_DAYS),
                        false,
                        Optional.empty())))
        .orElseGet(() -> Reckoned.lacking("no review and no date an appliance was fitted"));
  }

  private static Reckoned<NextReview> after(Treatment treatment, Review last) {
    LocalDate stated = last.nextReviewOn();
    if (stated != null) {
      return Reckoned.known(new NextReview(stated, stated, true, Optional.of(last)));
    }
    Optional<Stage> stage =
        treatment.stages().stream().filter(s -> s.id().equals(last.stageId())).findFirst();
    return stage
        .<Reckoned<NextReview>>map(
            s -> {
              LocalDate due = last.date().plusWeeks(s.reviewWeeks());
              return Reckoned.known(new NextReview(due, due, false, Optional.of(last)));
            })
        .orElseGet(() -> Reckoned.lacking("no nextReviewOn and no stage for the last review"));
  }
}
