package org.intercusp.rules.figure;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.Expected;
import org.intercusp.analysis.progress.OverjetCourse;
import org.intercusp.analysis.progress.Progress;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Stage.Goal;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Treatment;

/** How fast the overjet shrinks, what was expected, and when the goal is reached at this rate. */
final class ProgressFigures {

  private ProgressFigures() {}

  static List<Figure> of(Case about) {
    Treatment treatment = about.treatment();
    Reckoned<OverjetCourse> course = OverjetCourse.of(treatment, about.day());
    Reckoned<Progress> progress = course.flatMap(OverjetCourse::progress);
    FigureSheet sheet = new FigureSheet(treatment.id());
    sheet.number(
        "overjet-rate",
        progress.map(Progress::rate),
        2,
        Unit.MILLIMETRE_PER_MONTH,
        Context.of(Expected.SOURCE)
            .usually("0.58 and 0.54 at 12 and 22 h a day prescribed")
            .noting(progress.map(ProgressFigures::interval).result().orElse(null)));
    expected(sheet, treatment, course);
    sheet.words(
        "overjet-goal-on",
        progress.flatMap(p -> goal(treatment).flatMap(p::projected)).map(LocalDate::toString),
        Context.of(Source.COMMON_PRACTICE).noting("if the rate stays as it was"));
    return sheet.figures();
  }

  private static String interval(Progress progress) {
    return progress
        .interval()
        .map(i -> "95 %% interval %s to %s".formatted(Shown.of(Progress.told(i.low())), Shown.of(Progress.told(i.high()))))
        .result()
        .orElse(progress.interval().reason());
  }

  private static void expected(
      FigureSheet sheet, Treatment treatment, Reckoned<OverjetCourse> course) {
    Reckoned<Expected> group = group(treatment);
    Reckoned<BigDecimal> left =
        course.flatMap(
            c ->
                c.reviews().isEmpty()
                    ? Reckoned.lacking("no review in an active stage")
                    : group.map(g -> g.overjet(c.atFitting(), c.fitted(), last(c).date()).value()));
    String observed =
        course
            .result()
            .filter(c -> !c.reviews().isEmpty())
            .map(c -> "observed " + Shown.of(last(c).overjet()) + " on " + last(c).date())
            .orElse(null);
    sheet.number(
        "overjet-expected", left, 1, Unit.MILLIMETRE, Context.of(Expected.SOURCE).noting(observed));
  }

  /** The group of the trial that the prescribed wear of the active stage is nearest to. */
  static Reckoned<Expected> group(Treatment treatment) {
    return activeStage(treatment)
        .flatMap(
            stage -> {
              HoursPerDay wear = stage.wearHours();
              return wear == null
                  ? Reckoned.lacking("no wearHours of the active stage")
                  : Reckoned.known(Expected.at(wear));
            });
  }

  private static Review last(OverjetCourse course) {
    return course.reviews().get(course.reviews().size() - 1);
  }

  private static Reckoned<Stage> activeStage(Treatment treatment) {
    return treatment.stages().stream()
        .filter(stage -> stage.kind() == StageKind.ACTIVE)
        .findFirst()
        .<Reckoned<Stage>>map(Reckoned::known)
        .orElseGet(() -> Reckoned.lacking("no active stage"));
  }

  private static Reckoned<Length> goal(Treatment treatment) {
    return treatment.stages().stream()
        .filter(stage -> stage.kind() == StageKind.ACTIVE)
        .flatMap(stage -> stage.goals().stream())
        .filter(goal -> goal.measure() == Goal.Measure.OVERJET)
        .map(Goal::target)
        .findFirst()
        .<Reckoned<Length>>map(Reckoned::known)
        .orElseGet(() -> Reckoned.lacking("no overjet goal of an active stage"));
  }
}
