package org.intercusp.rules.figure;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.Expected;
import org.intercusp.analysis.progress.ExpectedOverjet;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.stage.ScrewTurns;
import org.intercusp.analysis.stage.Worn;
import org.intercusp.analysis.trim.TrimDue;
import org.intercusp.analysis.trim.Trimmed;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Treatment;

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
    Appliance worn = Worn.on(treatment, about.day()).orElse(null);
    if (worn == null || due.result().isEmpty()) {
      return List.of();
    }
    LocalDate day = due.result().orElseThrow();
    if (worn.type() == ApplianceType.TWIN_BLOCK && about.biteOf(worn).isPresent()) {
      sheet.number("next-visit-trim", trim(about, worn), 1, Unit.MILLIMETRE, PRACTICE);
    }
    if (worn.screw() != null) {
      sheet.whole(
          "next-visit-turns",
          ScrewTurns.due(treatment, worn, about.day(), day),
          Unit.COUNT,
          PRACTICE);
    }
    sheet.number(
        "next-visit-overjet",
        ExpectedOverjet.atNextVisit(treatment, about.day()).map(Length::value),
        1,
        Unit.MILLIMETRE,
        Context.of(Expected.SOURCE).noting("mean course of the trial, expected on " + day));
    return sheet.figures();
  }

  private static Reckoned<BigDecimal> trim(Case about, Appliance worn) {
    Trimmed trimmed = ApplianceFigures.trimmed(about, worn);
    if (trimmed.when(about.day()) == When.NEVER) {
      return Reckoned.lacking(ApplianceFigures.NO_TRIMMING);
    }
    return TrimDue.of(trimmed, about.day())
        .flatMap(
            next ->
                next.due() ? Reckoned.known(next.amount().value()) : Reckoned.lacking(next.why()));
  }
}
