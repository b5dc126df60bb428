package org.intercusp.rules.figure;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.Expected;
import org.intercusp.analysis.progress.OverjetCourse;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.trim.TrimmingPlan;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.ReviewKind;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * The card for the next visit: what to trim, the screw's turns until then, the overjet expected.
 */
final class NextVisitFigures {

  private static final Context PRACTICE = Context.of(Source.COMMON_PRACTICE);

  private NextVisitFigures() {}

  static List<Figure> of(Case about) {
    Treatment treatment = about.treatment();
    Reckoned<LocalDate> due = NextReview.of(treatment).map(NextReview::by);
    FigureSheet sheet = new FigureSheet(treatment.id());
    Appliance worn = worn(about);
    Bite bite = worn == null ? null : about.biteOf(worn).orElse(null);
    if (worn == null || due.result().isEmpty()) {
      return List.of();
    }
    LocalDate day = due.result().orElseThrow();
    if (bite != null && worn.type() == ApplianceType.TWIN_BLOCK) {
      sheet.number("next-visit-trim", trim(about, worn, bite), 1, Unit.MILLIMETRE, PRACTICE);
    }
    Appliance.Screw screw = worn.screw();
    if (screw != null) {
      sheet.whole("next-visit-turns", turns(about, screw, day), Unit.COUNT, PRACTICE);
    }
    sheet.number(
        "next-visit-overjet",
        overjet(about, day),
        1,
        Unit.MILLIMETRE,
        Context.of(Expected.SOURCE).noting("mean course of the trial, expected on " + day));
    return sheet.figures();
  }

  /** The appliance fitted last by the day. */
  private static @Nullable Appliance worn(Case about) {
    Appliance worn = null;
    LocalDate since = LocalDate.MIN;
    for (Appliance appliance : about.treatment().appliances()) {
      LocalDate fitted = appliance.fittedOn();
      if (fitted != null && !fitted.isAfter(about.day()) && !fitted.isBefore(since)) {
        worn = appliance;
        since = fitted;
      }
    }
    return worn;
  }

  private static Reckoned<BigDecimal> trim(Case about, Appliance worn, Bite bite) {
    LocalDate fitted = worn.fittedOn();
    long done =
        about.treatment().reviews().stream()
            .filter(review -> review.kind() == ReviewKind.PLANNED)
            .filter(review -> fitted != null && !review.date().isBefore(fitted))
            .count();
    return ApplianceFigures.plan(
            about, worn, bite, When.of(bite.overbiteHabitual()), TrimmingPlan.RATE)
        .flatMap(
            plan ->
                done < plan.visits().size()
                    ? Reckoned.known(plan.visits().get((int) done).trim().value())
                    : Reckoned.lacking("the trimming plan has run out"));
  }

  private static Reckoned<Integer> turns(Case about, Appliance.Screw screw, LocalDate due) {
    int done = 0;
    for (Review review : about.treatment().reviews()) {
      Integer turns = review.screwTurns();
      done += turns == null ? 0 : turns;
    }
    LocalDate from =
        about.treatment().reviews().stream()
            .map(Review::date)
            .max(LocalDate::compareTo)
            .orElse(about.day());
    if (screw.daysPerTurn() < 1) {
      return Reckoned.lacking("daysPerTurn of the screw is not a number of days");
    }
    long until = Math.max(0, ChronoUnit.DAYS.between(from, due)) / screw.daysPerTurn();
    return Reckoned.known((int) Math.min(until, Math.max(0, screw.plannedTurns() - (long) done)));
  }

  private static Reckoned<BigDecimal> overjet(Case about, LocalDate due) {
    return OverjetCourse.of(about.treatment(), about.day())
        .flatMap(
            course ->
                ProgressFigures.group(about.treatment())
                    .map(group -> group.overjet(course.atFitting(), course.fitted(), due).value()));
  }
}
