package org.intercusp.analysis.index;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeFindings;
import org.jspecify.annotations.Nullable;

/** The figures of a treatment's outcome scorings: each scoring, then the change from the start. */
public final class IndexFigures {

  private IndexFigures() {}

  /**
   * Figures of every scoring; of those after the start, the change too. A second scoring ({@code
   * repeatOf}) never stands for a start.
   */
  public static List<Figure> figures(List<Outcome> outcomes) {
    Optional<Outcome> start =
        outcomes.stream()
            .filter(outcome -> outcome.phase() == Phase.START && outcome.repeatOf() == null)
            .findFirst();
    List<Figure> figures = new ArrayList<>();
    for (Outcome outcome : outcomes) {
      figures.addAll(figures(outcome));
      if (outcome.phase() != Phase.START) {
        start.ifPresent(first -> figures.addAll(change(first, outcome)));
      }
    }
    return List.copyOf(figures);
  }

  /** Figures of one scoring. */
  public static List<Figure> figures(Outcome outcome) {
    Scored scored = Scored.of(outcome);
    String origin = scored.origin().shown();
    FigureSheet sheet = new FigureSheet(outcome.id());
    for (ParWeighting weighting : ParWeighting.values()) {
      sheet.whole(
          "par-" + weighting.code(),
          scored.par(weighting),
          weighting.unit(),
          Context.of(weighting.source()).noting(origin));
    }
    sheet.words(
        "dental-health-component",
        scored.dhc(),
        Context.of(DentalHealth.SOURCE).noting(doubt(outcome.findings(), origin)));
    sheet.words(
        "treatment-need",
        scored.dhc().flatMap(dhc -> need(dhc, scored.aesthetic())),
        Context.of(TreatmentNeed.SOURCE)
            .usually("needed: DHC 4-5, or 3 with aesthetic component 6 or more"));
    Reckoned<Integer> icon = scored.icon().map(ComplexityIndex::score);
    Context context = Context.of(ComplexityIndex.SOURCE).noting(origin);
    sheet.whole("icon", icon, Unit.SCORE, context.usually("need above 43, acceptable below 31"));
    sheet.words("icon-verdict", icon.map(IndexFigures::verdict), context);
    return sheet.figures();
  }

  private static Reckoned<String> need(String dhc, Reckoned<Integer> aesthetic) {
    int grade = DentalHealth.gradeOf(dhc);
    if (grade != 3) {
      return Reckoned.known(shown(TreatmentNeed.needed(grade, 1)));
    }
    return aesthetic.map(component -> shown(TreatmentNeed.needed(grade, component)));
  }

  private static String shown(boolean needed) {
    return needed ? "needed" : "not needed";
  }

  private static String verdict(int icon) {
    if (ComplexityIndex.needsTreatment(icon)) {
      return "treatment needed, not acceptable as an outcome";
    }
    return ComplexityIndex.acceptable(icon)
        ? "acceptable as an outcome"
        : "treatment not needed, not acceptable as an outcome";
  }

  private static String doubt(@Nullable OutcomeFindings findings, String origin) {
    return findings != null && DentalHealth.of(findings).borderline()
        ? origin + "; borderline: a reading lies within its uncertainty of a limit"
        : origin;
  }

  /** What changed from one scoring to another, subject the second. */
  public static List<Figure> change(Outcome before, Outcome after) {
    Scored first = Scored.of(before);
    Scored second = Scored.of(after);
    FigureSheet sheet = new FigureSheet(after.id());
    for (ParWeighting weighting : ParWeighting.values()) {
      par(sheet, weighting, parChange(first, second, weighting), "since " + before.id());
    }
    Reckoned<Integer> earlier = first.icon().map(ComplexityIndex::score);
    Reckoned<Integer> later = second.icon().map(ComplexityIndex::score);
    Context context = Context.of(ComplexityIndex.SOURCE).noting("since " + before.id());
    sheet.whole(
        "icon-improvement",
        earlier.flatMap(a -> later.map(b -> ComplexityIndex.improvement(a, b))),
        Unit.SCORE,
        context);
    sheet.words(
        "icon-improvement-class",
        earlier.flatMap(a -> later.map(b -> ComplexityIndex.improvementClass(a, b).shown())),
        context);
    return sheet.figures();
  }

  private static Reckoned<ParChange> parChange(
      Scored first, Scored second, ParWeighting weighting) {
    return first
        .par(weighting)
        .flatMap(before -> second.par(weighting).map(after -> new ParChange(before, after)));
  }

  private static void par(
      FigureSheet sheet, ParWeighting weighting, Reckoned<ParChange> change, String since) {
    String name = "par-" + weighting.code();
    Source source = weighting == ParWeighting.UK ? ParChange.SOURCE : weighting.source();
    Context context = Context.of(source).noting(since);
    sheet.whole(name + "-reduction", change.map(ParChange::reduction), Unit.SCORE, context);
    sheet.number(
        name + "-reduction-percent",
        change.flatMap(ParChange::percent),
        2,
        Unit.PERCENT,
        context.usually("a mean above 70 % is the high standard"));
    sheet.words(
        name + "-improvement",
        change.flatMap(ParChange::improvement).map(ParChange.Improvement::shown),
        context);
  }
}
