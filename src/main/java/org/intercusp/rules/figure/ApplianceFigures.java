package org.intercusp.rules.figure;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.block.Incline;
import org.intercusp.analysis.trim.Trimmed;
import org.intercusp.analysis.trim.TrimmingPlan;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Angle;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.jspecify.annotations.Nullable;

/** What an appliance does by its incline, and how its blocks will be trimmed. */
final class ApplianceFigures {

  private static final String AFTER_GOAL = "counted from the review that meets the overjet goal";

  private static final String NOT_RECKONED = "not reckoned";

  static final String NO_TRIMMING = "no trimming with this overbite";
  private static final Source GEOMETRY = Source.COMMON_PRACTICE;

  private ApplianceFigures() {}

  static List<Figure> of(Case about, Appliance appliance) {
    FigureSheet sheet = new FigureSheet(appliance.id());
    Angle angle = appliance.inclineAngle();
    if (angle != null || appliance.type() == ApplianceType.TWIN_BLOCK) {
      incline(sheet, angle);
    }
    if (appliance.type() == ApplianceType.TWIN_BLOCK) {
      trimming(sheet, about, appliance);
    }
    return sheet.figures();
  }

  private static void incline(FigureSheet sheet, @Nullable Angle angle) {
    Reckoned<Incline> plane =
        angle == null
            ? Reckoned.lacking("no inclineAngle was prescribed")
            : Reckoned.known(new Incline(angle));
    Context context = Context.of(GEOMETRY).noting("of the contact force; plain geometry");
    sheet.number("incline-forward", plane.map(p -> real(p.forward())), 4, Unit.SHARE, context);
    sheet.number("incline-vertical", plane.map(p -> real(p.vertical())), 4, Unit.SHARE, context);
    sheet.number(
        "incline-ratio",
        plane.flatMap(Incline::ratio).map(ApplianceFigures::real),
        4,
        Unit.SHARE,
        context.usually("2.7475 at 70 deg, 1 at 45 deg"));
  }

  private static void trimming(FigureSheet sheet, Case about, Appliance appliance) {
    if (about.biteOf(appliance).isEmpty()) {
      return;
    }
    Context context = Context.of(Source.COMMON_PRACTICE);
    Trimmed trimmed = trimmed(about, appliance);
    When when = trimmed.atStart();
    sheet.words(
        "trimming",
        Reckoned.known(when.shown()),
        context.usually(
            "by overbite: 4 or more at once, %s or less never"
                .formatted(Shown.of(trimmed.little().value()))));
    Reckoned<TrimmingPlan> plan = plan(trimmed, when, TrimmingPlan.RATE);
    boolean waits = when == When.AFTER_OVERJET_GOAL;
    sheet.words(
        "trimming-visits",
        plan.map(known -> (waits ? AFTER_GOAL + ": " : "") + visits(known)),
        trimmed.asksTooMuch()
            ? context.noting(
                "more than %s a visit counts as that".formatted(Shown.of(TrimmingPlan.MOST)))
            : context);
    Reckoned<TrimmingPlan> fast = plan(trimmed, when, TrimmingPlan.FAST);
    sheet.number(
        "molars-meet-week",
        plan.flatMap(known -> meet(known, fast)),
        0,
        Unit.WEEK,
        context.noting(
            (waits ? AFTER_GOAL + "; " : "")
                + "eruption 0.5 mm in 6 weeks; at 0.25: %s; at 1.0: %s"
                    .formatted(
                        shown(plan(trimmed, when, TrimmingPlan.SLOW)).orElse(NOT_RECKONED),
                        shown(fast).orElse(NOT_RECKONED))));
  }

  static Trimmed trimmed(Case about, Appliance appliance) {
    return new Trimmed(about.treatment(), appliance, about.limits().length(Limit.TRIM_OVERBITE));
  }

  private static Reckoned<TrimmingPlan> plan(Trimmed trimmed, When when, Length rate) {
    return when == When.NEVER ? Reckoned.lacking(NO_TRIMMING) : trimmed.plan(rate);
  }

  /** Where they do not meet at the usual rate, they may at the fast one. */
  private static Reckoned<BigDecimal> meet(TrimmingPlan plan, Reckoned<TrimmingPlan> fast) {
    return plan.meetWeek().isPresent()
        ? Reckoned.known(BigDecimal.valueOf(plan.meetWeek().getAsInt()))
        : Reckoned.lacking(
            "the molars do not meet within the visits reckoned"
                + shown(fast).map(week -> "; at 1.0: " + week).orElse(""));
  }

  private static Optional<String> shown(Reckoned<TrimmingPlan> plan) {
    return plan.result().stream()
        .flatMapToInt(known -> known.meetWeek().stream())
        .mapToObj(week -> "week " + week)
        .findFirst();
  }

  private static String visits(TrimmingPlan plan) {
    String visits =
        plan.visits().stream()
            .filter(visit -> visit.trim().value().signum() > 0)
            .map(visit -> "week %d: %s mm".formatted(visit.week(), Shown.of(visit.trim().value())))
            .collect(Collectors.joining("; "));
    return visits.isEmpty() ? "nothing to trim" : visits;
  }

  private static BigDecimal real(double number) {
    return BigDecimal.valueOf(number);
  }
}
