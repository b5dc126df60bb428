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
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.StudyModel;

/** The figures of one set of study models. */
public final class ModelFigures {

  private ModelFigures() {}

  public static List<Figure> figures(StudyModel model) {
    FigureSheet sheet = new FigureSheet(model.id());
    ratio(sheet, "tooth-size-overall", ToothSizeRatio.of(model, Span.OVERALL), Span.OVERALL);
    ratio(sheet, "tooth-size-anterior", ToothSizeRatio.of(model, Span.ANTERIOR), Span.ANTERIOR);
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
      space(sheet, ArchSpace.of(model, arch), arch);
    }
    irregularity(sheet, model);
    return sheet.figures();
  }

  private static void ratio(
      FigureSheet sheet, String name, Reckoned<ToothSizeRatio> ratio, Span span) {
    Context context = Context.of(ToothSizeRatio.SOURCE);
    sheet.number(
        name, ratio.map(ToothSizeRatio::percent), 1, Unit.PERCENT, context.usually(span.usual()));
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

  private static void space(FigureSheet sheet, Reckoned<ArchSpace> space, Arch arch) {
    Source source =
        space
            .result()
            .filter(known -> known.basis() == ArchSpace.Basis.PREDICTED)
            .map(known -> ArchSpace.PREDICTION)
            .orElse(Source.COMMON_PRACTICE);
    Context context =
        Context.of(source).noting(space.map(known -> known.basis().shown()).result().orElse(null));
    sheet.number(
        "space-required-" + arch.code(),
        space.map(known -> known.required().value()),
        1,
        Unit.MILLIMETRE,
        context);
    sheet.number(
        "space-" + arch.code(),
        space.map(known -> known.discrepancy().value()),
        1,
        Unit.MILLIMETRE,
        context);
  }

  private static void irregularity(FigureSheet sheet, StudyModel model) {
    Contacts contacts = model.contacts();
    Reckoned<Length> lower =
        contacts == null
            ? Reckoned.lacking("contacts are not measured")
            : Irregularity.of(contacts.lower());
    Reckoned<Length> upper =
        contacts == null
            ? Reckoned.lacking("contacts are not measured")
            : Irregularity.of(contacts.upper());
    Context context = Context.of(Irregularity.SOURCE);
    sheet.number("irregularity-lower", lower.map(Length::value), 1, Unit.MILLIMETRE, context);
    sheet.number(
        "irregularity-upper",
        upper.map(Length::value),
        1,
        Unit.MILLIMETRE,
        context.noting("the index was described for the lower arch"));
  }
}
