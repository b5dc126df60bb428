package org.intercusp.rules.figure;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Treatment;

/** When each stage runs, and when the patient is due. */
final class StageFigures {

  private StageFigures() {}

  static List<Figure> of(Treatment treatment) {
    List<Figure> figures = new ArrayList<>();
    List<Reckoned<StageDates>> dates = StageDates.of(treatment);
    for (int i = 0; i < dates.size(); i++) {
      Stage stage = treatment.stages().get(i);
      Reckoned<StageDates> of = dates.get(i);
      String stated = of.map(d -> d.stated() ? "as recorded" : "computed").result().orElse(null);
      Context context =
          Context.of(Source.COMMON_PRACTICE).usually(usual(stage.kind())).noting(stated);
      figures.addAll(
          new FigureSheet(stage.id())
              .words("stage-start", of.map(d -> d.start().toString()), context)
              .words("stage-end", of.map(d -> d.end().toString()), context)
              .figures());
    }
    figures.addAll(next(treatment));
    return figures;
  }

  private static List<Figure> next(Treatment treatment) {
    Context context =
        Context.of(Source.COMMON_PRACTICE)
            .usually("10 to 14 days after fitting, then every 6 to 8 weeks");
    return new FigureSheet(treatment.id())
        .words(
            "next-review",
            NextReview.of(treatment)
                .map(
                    due ->
                        due.from().equals(due.by())
                            ? due.by().toString()
                            : due.from() + " to " + due.by()),
            context)
        .figures();
  }

  private static String usual(StageKind kind) {
    return switch (kind) {
      case ACTIVE -> "6 to 9 months";
      case SUPPORT -> "4 to 6 months";
      case RETENTION -> "9 months";
      case FIXED -> "as planned";
    };
  }
}
