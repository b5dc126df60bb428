package org.intercusp.analysis.model;

import java.math.BigDecimal;
import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.model.ToothSizeRatio.Span;
import org.intercusp.dentition.Arch;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.StudyModel;

/** The figures of one set of study models. */
public final class ModelFigures {

  private ModelFigures() {}

  /** Figures of a model measured with a ruler or sliding scale. */
  public static List<Figure> figures(StudyModel model) {
    return figures(model, ReadingError.RULER);
  }

  /** Figures of a model whose every reading has such an error; notes carry what comes of it. */
  public static List<Figure> figures(StudyModel model, ReadingError error) {
    FigureSheet sheet = new FigureSheet(model.id());
    ratio(sheet, "tooth-size-overall", ToothSizeRatio.of(model, Span.OVERALL), Span.OVERALL, error);
    ratio(
        sheet,
        "tooth-size-anterior",
        ToothSizeRatio.of(model, Span.ANTERIOR),
        Span.ANTERIOR,
        error);
    for (Arch arch : Arch.values()) {
      Reckoned<BigDecimal> side =
          ArchSpace.lowerIncisors(model)
              .map(incisors -> ArchSpace.predictedSide(arch, incisors).value());
      sheet.number(
          "predicted-side-" + arch.code(),
          side,
          1,
          Unit.MILLIMETRE,
          Context.of(ArchSpace.PREDICTION).noting("canine and premolars of one side"));
    }
    for (Arch arch : Arch.values()) {
      space(sheet, model, arch, error);
    }
    irregularity(sheet, model, error);
    return sheet.figures();
  }

  private static void ratio(
      FigureSheet sheet,
      String name,
      Reckoned<ToothSizeRatio> ratio,
      Span span,
      ReadingError error) {
    Context context = Context.of(ToothSizeRatio.SOURCE);
    sheet.number(
        name,
        ratio.map(ToothSizeRatio::percent),
        1,
        Unit.PERCENT,
        context
            .usually(span.usual())
            .noting(ratio.map(known -> doubt(known, error)).result().orElse(null)));
    sheet.number(
        name + "-excess",
        ratio.map(known -> known.excess().value()),
        2,
        Unit.MILLIMETRE,
        context.noting(
            ratio
                .map(known -> "excess in the " + known.excessIn().code() + " arch")
                .result()
                .orElse(null)));
  }

  private static void space(FigureSheet sheet, StudyModel model, Arch arch, ReadingError error) {
    Reckoned<ArchSpace.Need> need = ArchSpace.needed(model, arch);
    Reckoned<ArchSpace> space = ArchSpace.of(model, arch);
    Context context =
        Context.of(need.map(ArchSpace.Need::source).result().orElse(Source.COMMON_PRACTICE))
            .noting(need.map(known -> known.basis().shown()).result().orElse(null));
    sheet.number(
        "space-required-" + arch.code(),
        need.map(known -> known.width().value()),
        1,
        Unit.MILLIMETRE,
        context);
    sheet.number(
        "space-" + arch.code(),
        space.map(known -> known.discrepancy().value()),
        1,
        Unit.MILLIMETRE,
        context.noting(space.map(known -> doubt(known, error)).result().orElse(null)));
  }

  private static String doubt(ArchSpace space, ReadingError error) {
    return space.basis().shown()
        + "; "
        + FigureSheet.uncertain(space.uncertainty(error), Unit.MILLIMETRE);
  }

  private static void irregularity(FigureSheet sheet, StudyModel model, ReadingError error) {
    Contacts contacts = model.contacts();
    Reckoned<Length> lower =
        contacts == null
            ? Reckoned.lacking("contacts are not measured")
            : Irregularity.of(contacts.lower());
    Reckoned<Length> upper =
        contacts == null
            ? Reckoned.lacking("contacts are not measured")
            : Irregularity.of(contacts.upper());
    String doubt = FigureSheet.uncertain(Irregularity.uncertainty(error), Unit.MILLIMETRE);
    Context context = Context.of(Irregularity.SOURCE).noting(doubt);
    sheet.number("irregularity-lower", lower.map(Length::value), 1, Unit.MILLIMETRE, context);
    sheet.number(
        "irregularity-upper",
        upper.map(Length::value),
        1,
        Unit.MILLIMETRE,
        context.noting(doubt + "; the index was described for the lower arch"));
  }

  private static String doubt(ToothSizeRatio ratio, ReadingError error) {
    String u = FigureSheet.uncertain(ratio.uncertainty(error), Unit.PERCENT);
    return ratio.borderline(error) ? u + "; borderline to the usual range" : u;
  }
}
