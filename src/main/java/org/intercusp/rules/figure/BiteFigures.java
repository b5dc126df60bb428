package org.intercusp.rules.figure;

import java.math.BigDecimal;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.bite.ConstructionBite;
import org.intercusp.analysis.bite.IntergingivalHeight;
import org.intercusp.analysis.block.BlockGeometry;
import org.intercusp.analysis.block.BlockGeometry.Gaps;
import org.intercusp.analysis.plan.ActivationPlan;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.measure.Quantity;
import org.intercusp.measure.Share;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/** What a construction bite comes to: its readings, heights, predicted gaps and activation plan. */
final class BiteFigures {

  private static final Context PRACTICE = Context.of(Source.COMMON_PRACTICE);
  private static final Source ANCHOR = Source.published("J Orthod 2010;37:209-216");

  private final Case about;
  private final Bite bite;
  private final ConstructionBite computed;
  private final FigureSheet sheet;

  private BiteFigures(Case about, Bite bite) {
    this.about = about;
    this.bite = bite;
    this.computed = ConstructionBite.of(bite, about.error());
    this.sheet = new FigureSheet(bite.id());
  }

  static List<Figure> of(Case about, Bite bite) {
    BiteFigures figures = new BiteFigures(about, bite);
    figures.readings();
    figures.heights();
    figures.gaps();
    figures.plan();
    return figures.sheet.figures();
  }

  private void readings() {
    String slide = computed.slideAssumed() ? "slide assumed 0" : null;
    Limits limits = about.limits();
    double u = computed.differenceUncertainty();
    length(
        "path",
        computed.path(),
        range(limits, Limit.PATH_SHORTEST, Limit.PATH_LONGEST),
        near(computed.path(), u, slide, Limit.PATH_SHORTEST, Limit.PATH_LONGEST));
    length("activation", computed.activation(), null, slide);
    sheet.number("slide", computed.slide().map(Length::value), 2, Unit.MILLIMETRE, PRACTICE);
    sheet.number(
        "share-of-path",
        computed.share().map(Share::value),
        3,
        Unit.SHARE,
        PRACTICE
            .usually("at most " + limits.of(Limit.SHARE_OF_PATH).toPlainString())
            .noting(shareNote(slide)));
    length(
        "step",
        computed.step(),
        "at most " + Shown.of(limits.of(Limit.BITE_STEP)),
        near(computed.step(), u, null, Limit.BITE_STEP));
    length("overjet-explained", computed.explainedOverjet(), null, null);
  }

  private @Nullable String shareNote(@Nullable String slide) {
    return computed
        .share()
        .flatMap(share -> computed.shareUncertainty().map(u -> shareNote(share, u, slide)))
        .result()
        .orElse(slide);
  }

  private @Nullable String shareNote(Share share, double u, @Nullable String slide) {
    String note = "u = " + Shown.rounded(u, 3) + (slide == null ? "" : "; " + slide);
    return near(share, u, note, Limit.SHARE_OF_PATH);
  }

  /** A note, and behind it that one of the limits lies within the uncertainty of a value. */
  private @Nullable String near(
      Quantity value, double uncertainty, @Nullable String note, Limit... limits) {
    boolean borderline =
        Stream.of(limits)
            .map(limit -> value.value().subtract(about.limits().of(limit)).abs())
            .anyMatch(away -> away.doubleValue() <= uncertainty);
    if (!borderline) {
      return note;
    }
    return (note == null ? "" : note + "; ") + "borderline to the usual range";
  }

  private void heights() {
    Limits limits = about.limits();
    Limit low = about.adult() ? Limit.HEIGHT_ADULT_LOW : Limit.HEIGHT_CHILD_LOW;
    Limit high = about.adult() ? Limit.HEIGHT_ADULT_HIGH : Limit.HEIGHT_CHILD_HIGH;
    String band = range(limits, low, high);
    IntergingivalHeight height = IntergingivalHeight.of(bite);
    double u = IntergingivalHeight.uncertainty(about.error());
    length(
        "height-in-occlusion",
        height.inOcclusion(),
        band,
        near(height.inOcclusion(), u, "where treatment should arrive", low, high));
    length(
        "height-in-bite",
        height.inBite(),
        band,
        near(height.inBite(), u, "usually above the band for a time", low, high));
  }

  private void gaps() {
    Reckoned<BlockGeometry> block =
        BlockGeometry.predict(
            about.jaw(),
            bite.overjetHabitual(),
            bite.overjetInBite(),
            bite.overbiteHabitual(),
            bite.incisalClearance());
    gap("gap-first-premolar", block, Gaps::firstPremolar, bite.premolarClearance());
    gap("gap-second-premolar", block, Gaps::secondPremolar, null);
    gap("gap-first-molar", block, Gaps::molar, bite.molarClearance());
  }

  private void gap(
      String name,
      Reckoned<BlockGeometry> block,
      Function<Gaps, Length> tooth,
      @Nullable Length registered) {
    String note = block.map(known -> assumptions(known, tooth, registered)).result().orElse(null);
    Context context = Context.of(Source.COMMON_PRACTICE).noting(note);
    if (name.equals("gap-first-premolar")) {
      context = context.usually("5 to 6 with 2 between incisors (" + ANCHOR.citation() + ")");
    }
    sheet.number(
        name, block.map(known -> tooth.apply(known.gaps()).value()), 2, Unit.MILLIMETRE, context);
  }

  private static String assumptions(
      BlockGeometry block, Function<Gaps, Length> tooth, @Nullable Length registered) {
    String predicted =
        "predicted: Bonwill side %s mm, Balkwill angle %s deg, condylar path %s deg; %s to %s with a path 10 deg flatter or steeper"
            .formatted(
                plain(block.jaw().bonwillSide()),
                plain(block.jaw().balkwillAngle()),
                plain(block.jaw().condylarPath()),
                tooth.apply(block.flatter()).value().toPlainString(),
                tooth.apply(block.steeper()).value().toPlainString());
    return registered == null
        ? predicted
        : "registered %s mm, which wins; %s".formatted(Shown.of(registered.value()), predicted);
  }

  private void plan() {
    Share limit = about.limits().share(Limit.SHARE_OF_PATH);
    ActivationPlan.Start start =
        new ActivationPlan.Start(
            bite.overjetHabitual(),
            computed.path(),
            computed.slideTaken(),
            Length.ZERO,
            bite.comfortable());
    Reckoned<ActivationPlan> plan = ActivationPlan.of(start, limit);
    String note = plan.map(BiteFigures::steps).result().orElse(null);
    Context context = PRACTICE.noting(note);
    sheet.number(
        "advance-allowed",
        ActivationPlan.room(start, limit).map(Length::value),
        2,
        Unit.MILLIMETRE,
        PRACTICE);
    sheet.number(
        "advance-first-step", plan.map(p -> p.first().value()), 2, Unit.MILLIMETRE, context);
  }

  private static String steps(ActivationPlan plan) {
    if (plan.oneStep()) {
      return "one step, if the position is held comfortably";
    }
    if (plan.rest().isEmpty()) {
      return "all that is needed; the position is not held comfortably";
    }
    return plan.rest().stream()
        .map(
            step ->
                "then %s mm from week %d, once the overjet is %s mm or less%s"
                    .formatted(
                        Shown.of(step.amount().value()),
                        step.fromWeek(),
                        Shown.of(step.opensAtOverjet().value()),
                        step.probablyNotNeeded() ? " (probably not needed)" : ""))
        .collect(Collectors.joining("; "));
  }

  private void length(String name, Length length, @Nullable String usual, @Nullable String note) {
    sheet.number(
        name,
        Reckoned.known(length.value()),
        2,
        Unit.MILLIMETRE,
        PRACTICE.usually(usual).noting(note));
  }

  private static String range(Limits limits, Limit low, Limit high) {
    return Shown.of(limits.of(low)) + " to " + Shown.of(limits.of(high));
  }

  private static String plain(double number) {
    return Shown.of(BigDecimal.valueOf(number));
  }
}
