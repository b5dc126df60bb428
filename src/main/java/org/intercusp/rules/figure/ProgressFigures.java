package org.intercusp.rules.figure;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.Expected;
import org.intercusp.analysis.progress.ExpectedOverjet;
import org.intercusp.analysis.progress.OverjetCourse;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.analysis.progress.Progress;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Treatment;

/** How fast the overjet shrinks, what was expected, and when the goal is reached at this rate. */
final class ProgressFigures {

  private ProgressFigures() {}

  static List<Figure> of(Case about) {
    Treatment treatment = about.treatment();
    Reckoned<Progress> progress =
        OverjetCourse.of(treatment, about.day()).flatMap(OverjetCourse::progress);
    FigureSheet sheet = new FigureSheet(treatment.id());
    sheet.number(
        "overjet-rate",
        progress.map(Progress::rate),
        2,
        Unit.MILLIMETRE_PER_MONTH,
        Context.of(Expected.SOURCE)
            .usually("0.58 and 0.54 at 12 and 22 h a day prescribed")
            .noting(progress.map(ProgressFigures::interval).result().orElse(null)));
    expected(sheet, treatment, about.day());
    sheet.words(
        "overjet-goal-on",
        progress.flatMap(p -> reached(treatment, p, about.day())).map(LocalDate::toString),
        Context.of(Source.COMMON_PRACTICE).noting("if the rate stays as it was"));
    return sheet.figures();
  }

  private static String interval(Progress progress) {
    return progress
        .interval()
        .map(
            i ->
                "95 %% interval %s to %s"
                    .formatted(Shown.of(Progress.told(i.low())), Shown.of(Progress.told(i.high()))))
        .result()
        .orElse(progress.interval().reason());
  }

  private static void expected(FigureSheet sheet, Treatment treatment, LocalDate on) {
    String observed =
        OverjetCourse.of(treatment, on)
            .result()
            .flatMap(OverjetCourse::last)
            .map(last -> "observed " + Shown.of(last.overjet()) + " on " + last.date())
            .orElse(null);
    sheet.number(
        "overjet-expected",
        ExpectedOverjet.atLastReview(treatment, on).map(Length::value),
        1,
        Unit.MILLIMETRE,
        Context.of(Expected.SOURCE).noting(observed));
  }

  private static Reckoned<LocalDate> reached(Treatment treatment, Progress progress, LocalDate on) {
    return OverjetGoal.of(treatment, on)
        .map(goal -> goal.projected(treatment, progress, on))
        .orElseGet(() -> Reckoned.lacking("no overjet goal of the active stage"));
  }
}
