package org.intercusp.analysis.index;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeFindings;
import org.jspecify.annotations.Nullable;

/**
 * The figures of a treatment's outcome scorings: each scoring, then the change from the start.
 * Notes say what a score could be within the reading error, and where that changes a verdict.
 */
public final class IndexFigures {

  private IndexFigures() {}

  /** Figures of scorings read with a ruler or sliding scale. */
  public static List<Figure> figures(List<Outcome> outcomes) {
    return figures(outcomes, ReadingError.RULER);
  }

  /**
   * Figures of every scoring; of those after the start, the change since the {@link LastScoring} of
   * the start too.
   */
  public static List<Figure> figures(List<Outcome> outcomes, ReadingError error) {
    Optional<Outcome> start = LastScoring.of(outcomes, Phase.START);
    List<Figure> figures = new ArrayList<>();
    for (Outcome outcome : outcomes) {
      figures.addAll(figures(outcome, error));
      if (outcome.phase() != Phase.START) {
        start.ifPresent(first -> figures.addAll(change(first, outcome, error)));
      }
    }
    return List.copyOf(figures);
  }

  /** Figures of one scoring read with a ruler or sliding scale. */
  public static List<Figure> figures(Outcome outcome) {
    return figures(outcome, ReadingError.RULER);
  }

  /** Figures of one scoring whose every reading has such an error. */
  public static List<Figure> figures(Outcome outcome, ReadingError error) {
    Reread reread = Reread.of(outcome, error);
    Scored scored = reread.scored();
    String origin = scored.origin().shown();
    FigureSheet sheet = new FigureSheet(outcome.id());
    for (ParWeighting weighting : ParWeighting.values()) {
      Reckoned<ScoreRange> range = reread.par(weighting);
      sheet.whole(
          "par-" + weighting.code(),
          range.map(ScoreRange::scored),
          weighting.unit(),
          Context.of(weighting.source(scored.origin()))
              .noting(origin + unmeasured(outcome) + doubt(range, error)));
    }
    sheet.words("par-borderline", reread.borderlinePar().map(IndexFigures::listed), read(error));
    sheet.words(
        "dental-health-component",
        scored.dhc(),
        Context.of(DentalHealth.SOURCE).noting(doubt(outcome.findings(), origin, error)));
    sheet.words(
        "treatment-need",
        scored.dhc().flatMap(dhc -> need(dhc, scored.aesthetic())),
        Context.of(TreatmentNeed.SOURCE)
            .usually("needed: DHC 4-5, or 3 with aesthetic component 6 or more")
            .noting(
                reread.borderlineNeed()
                    ? "borderline: a reading lies within its uncertainty of a limit"
                    : null));
    icon(sheet, reread, origin, error);
    return sheet.figures();
  }

  /** Which arches have the examiner's score, of a rating that is computed but for them. */
  private static String unmeasured(Outcome outcome) {
    OutcomeFindings findings = outcome.findings();
    List<String> arches =
        findings == null ? List.<String>of() : PeerAssessment.unmeasured(findings);
    return arches.isEmpty() ? "" : ", " + String.join(" and ", arches) + " as the examiner scored";
  }

  private static void icon(FigureSheet sheet, Reread reread, String origin, ReadingError error) {
    Reckoned<ScoreRange> icon = reread.icon();
    Context context = Context.of(ComplexityIndex.SOURCE);
    sheet.whole(
        "icon",
        icon.map(ScoreRange::scored),
        Unit.SCORE,
        context.usually("need above 43, acceptable below 31").noting(origin + doubt(icon, error)));
    sheet.words(
        "icon-verdict",
        icon.map(range -> verdict(range.scored())),
        context.noting(
            origin
                + icon.map(r -> doubt(verdict(r.lowest()), verdict(r.highest())))
                    .result()
                    .orElse("")));
    sheet.words("icon-borderline", reread.borderlineIcon().map(IndexFigures::listed), read(error));
  }

  private static Context read(ReadingError error) {
    return Context.of(Source.COMMON_PRACTICE)
        .noting(
            "components that a reading "
                + shown(error)
                + " smaller or larger changes; what is judged by eye or counted stands");
  }

  private static String listed(List<String> components) {
    return components.isEmpty() ? "none" : String.join(", ", components);
  }

  private static String shown(ReadingError error) {
    return Unit.MILLIMETRE.behind(FigureSheet.rounded(error.standardUncertainty()));
  }

  private static String doubt(Reckoned<ScoreRange> range, ReadingError error) {
    return range.map(r -> doubt(r.lowest(), r.highest(), error)).result().orElse("");
  }

  private static String doubt(int lowest, int highest, ReadingError error) {
    return lowest == highest
        ? ""
        : "; borderline: %d to %d with readings %s smaller or larger"
            .formatted(lowest, highest, shown(error));
  }

  /** The verdicts that the reading error allows; nothing where there is one. */
  private static String doubt(String lowest, String highest) {
    return lowest.equals(highest) ? "" : "; borderline: from " + lowest + " to " + highest;
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

  private static String doubt(
      @Nullable OutcomeFindings findings, String origin, ReadingError error) {
    return findings != null && DentalHealth.of(findings, error).borderline()
        ? origin + "; borderline: a reading lies within its uncertainty of a limit"
        : origin;
  }

  /** What changed from one scoring to another, subject the second. */
  public static List<Figure> change(Outcome before, Outcome after, ReadingError error) {
    Reread first = Reread.of(before, error);
    Reread second = Reread.of(after, error);
    FigureSheet sheet = new FigureSheet(after.id());
    String since = "since " + before.id();
    for (ParWeighting weighting : ParWeighting.values()) {
      Reckoned<ImprovementRange> change =
          ImprovementRange.between(first.par(weighting), second.par(weighting));
      Source source = weighting.source(first.scored().origin(), second.scored().origin());
      par(sheet, "par-" + weighting.code(), source, change, since, error);
    }
    Reckoned<ImprovementRange> change = ImprovementRange.between(first.icon(), second.icon());
    Context context = Context.of(ComplexityIndex.SOURCE);
    sheet.whole(
        "icon-improvement",
        change.map(ImprovementRange::icon),
        Unit.SCORE,
        context.noting(
            since
                + change
                    .map(c -> doubt(c.leastIcon(), c.greatestIcon(), error))
                    .result()
                    .orElse("")));
    sheet.words(
        "icon-improvement-class",
        change.map(c -> c.iconClass().shown()),
        context.noting(
            since
                + change
                    .map(c -> doubt(c.leastIconClass().shown(), c.greatestIconClass().shown()))
                    .result()
                    .orElse("")));
    return sheet.figures();
  }

  private static void par(
      FigureSheet sheet,
      String name,
      Source source,
      Reckoned<ImprovementRange> change,
      String since,
      ReadingError error) {
    Context context = Context.of(source);
    Reckoned<ParChange> own = change.map(ImprovementRange::par);
    String range =
        change
            .map(c -> doubt(c.leastPar().reduction(), c.greatestPar().reduction(), error))
            .result()
            .orElse("");
    sheet.whole(
        name + "-reduction",
        own.map(ParChange::reduction),
        Unit.SCORE,
        context.noting(since + range));
    sheet.number(
        name + "-reduction-percent",
        own.flatMap(ParChange::percent),
        2,
        Unit.PERCENT,
        context
            .usually("a mean above 70 % is the high standard")
            .noting(since + change.map(IndexFigures::percents).result().orElse("")));
    sheet.words(
        name + "-improvement",
        own.flatMap(ParChange::improvement).map(ParChange.Improvement::shown),
        context.noting(
            since
                + change
                    .map(c -> doubt(shown(c.leastPar()), shown(c.greatestPar())))
                    .result()
                    .orElse("")));
  }

  private static String percents(ImprovementRange change) {
    String least = percent(change.leastPar());
    String greatest = percent(change.greatestPar());
    return least.equals(greatest) ? "" : "; borderline: " + least + " to " + greatest;
  }

  private static String percent(ParChange change) {
    return change
        .percent()
        .map(p -> Unit.PERCENT.behind(FigureSheet.rounded(p.doubleValue())))
        .result()
        .orElse("without a percentage");
  }

  private static String shown(ParChange change) {
    return change
        .improvement()
        .map(ParChange.Improvement::shown)
        .result()
        .orElse("without a class");
  }
}
