package org.intercusp.summary.drawing;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.analysis.progress.Progress;
import org.intercusp.treatment.Treatment;

/** The overjets seen once the active stage was over, which belong to no fitted rate. */
final class LaterOverjets {

  private LaterOverjets() {}

  /** Those after the last one of the active stage, in order of date, until a day. */
  static List<Progress.Point> of(Treatment treatment, LocalDate last, LocalDate until) {
    return treatment.reviewsByDate().stream()
        .filter(review -> review.date().isAfter(last) && !review.date().isAfter(until))
        .map(review -> new Progress.Point(review.date(), review.overjet()))
        .toList();
  }
}
