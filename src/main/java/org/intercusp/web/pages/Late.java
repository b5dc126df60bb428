package org.intercusp.web.pages;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Treatment;

/** Whether a review is late by today, which the day that a record speaks of may not know. */
final class Late {

  private Late() {}

  /** That it is, where the record speaks of an earlier day; else empty. */
  static String said(Treatment treatment, LocalDate today) {
    LocalDate asOf = treatment.asOf();
    if (asOf == null || !asOf.isBefore(today)) {
      return "";
    }
    return NextReview.of(treatment)
        .result()
        .map(NextReview::by)
        .filter(by -> by.isBefore(today))
        .map(
            by ->
                "By today, %s, a review was due on %s, %s ago."
                    .formatted(today, by, Unit.DAY.behind(ChronoUnit.DAYS.between(by, today))))
        .orElse("");
  }
}
