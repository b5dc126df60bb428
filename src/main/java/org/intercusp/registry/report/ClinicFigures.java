package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.agreement.Funnel;
import org.intercusp.analysis.agreement.Overdispersion;
import org.intercusp.analysis.agreement.Proportion;
import org.intercusp.analysis.cohort.CaseMix;
import org.intercusp.analysis.cohort.MixModel;
import org.intercusp.registry.report.Gathered.Expected;

/** Clinics beside one another: funnels and rates adjusted for case mix. */
final class ClinicFigures {

  private static final Statistic CASES = Statistic.count("cases", "Cases in the model");

  private final Cube cube;
  private final SmallCells cells;
  private final Sheet sheet;

  ClinicFigures(Cube cube, SmallCells cells, Sheet sheet) {
    this.cube = cube;
    this.cells = cells;
    this.sheet = sheet;
  }

  /** Share of a count in its whole across clinics. */
  void funnel(Measure measure, Compared compared) {
    Proportion all = compared.share(cube, Slice.ALL);
    Statistic centre = Statistic.share("centre", "Share over all");
    if (compared.hidden(cells, Slice.ALL)) {
      sheet.hide(measure, Slice.ALL, centre);
      return;
    }
    if (all.of() == 0) {
      sheet.value(measure, Slice.ALL, centre, all.share());
      return;
    }
    Funnel funnel = new Funnel((double) all.events() / all.of());
    List<Slice> judged = new ArrayList<>();
    for (Slice clinic : cube.slices(Dimension.CLINIC)) {
      // A hidden clinic's count could be worked back from the limits it had widened.
      if (cube.count(clinic, compared.whole()) > 0
          && !compared.hidden(cells, clinic)
          && compared.judged(cube, clinic)) {
        judged.add(clinic);
      }
    }
    double[] z =
        judged.stream().mapToDouble(clinic -> funnel.z(compared.share(cube, clinic))).toArray();
    Reckoned<Overdispersion> dispersion = Overdispersion.of(z);
    sheet.value(measure, Slice.ALL, centre, 100 * funnel.centre());
    sheet.value(measure, Slice.ALL, Statistic.plain("clinics", "Clinics judged"), judged.size());
    sheet.value(
        measure,
        Slice.ALL,
        Statistic.plain("phi", "Overdispersion phi"),
        dispersion.map(Overdispersion::phi));
    double factor = dispersion.map(Overdispersion::factor).result().orElse(1.0);
    sheet.value(measure, Slice.ALL, Statistic.plain("factor", "Limits widened by"), factor);
    for (Slice clinic : cube.slices(Dimension.CLINIC)) {
      Statistic share = Statistic.share("share", "Share");
      if (compared.hidden(cells, clinic)) {
        sheet.hide(measure, clinic, share);
      } else if (cube.count(clinic, compared.whole()) > 0) {
        clinic(measure, clinic, funnel, dispersion, compared);
      }
    }
  }

  private void clinic(
      Measure measure,
      Slice clinic,
      Funnel funnel,
      Reckoned<Overdispersion> dispersion,
      Compared compared) {
    Proportion proportion = compared.share(cube, clinic);
    sheet.value(measure, clinic, Statistic.count("cases", "Cases"), proportion.of());
    sheet.value(
        measure,
        clinic,
        Statistic.share("share", "Share"),
        100.0 * proportion.events() / proportion.of());
    known(measure, clinic, compared);
    if (!compared.judged(cube, clinic)) {
      sheet.absent(measure, clinic, Statistic.plain("z", "z"), Compared.NOT_JUDGED);
      return;
    }
    double factor = dispersion.map(Overdispersion::factor).result().orElse(1.0);
    sheet.value(measure, clinic, Statistic.plain("z", "z"), funnel.z(proportion) / factor);
    for (Control control : Control.of(funnel, proportion.of())) {
      Funnel.Limits limits =
          dispersion
              .result()
              .map(each -> funnel.widened(control.limits(), each))
              .orElse(control.limits());
      limit(measure, clinic, control, "low", limits.low());
      limit(measure, clinic, control, "high", limits.high());
    }
  }

  /** Control limits of a funnel for so many cases, before they are widened. */
  private record Control(String code, String title, Funnel.Limits limits) {
    static List<Control> of(Funnel funnel, int cases) {
      return List.of(
          new Control("exact-95", "Exact 95 %", funnel.exact(cases, Funnel.INNER)),
          new Control("exact-998", "Exact 99.8 %", funnel.exact(cases, Funnel.OUTER)),
          new Control("normal-95", "Normal 95 %", funnel.normal(cases, Funnel.INNER)),
          new Control("normal-998", "Normal 99.8 %", funnel.normal(cases, Funnel.OUTER)));
    }
  }

  private void limit(Measure measure, Slice clinic, Control control, String end, double share) {
    Statistic limit =
        Statistic.share(control.code() + "-" + end, control.title() + " limit, " + end);
    sheet.value(measure, clinic, limit, 100 * share);
  }

  /** What the judgement rests on, beside the figure. */
  private void known(Measure measure, Slice clinic, Compared compared) {
    Statistic known = Statistic.share("known", "Known");
    if (cells.hidden(clinic, compared.due())) {
      sheet.hide(measure, clinic, known);
    } else {
      sheet.value(
          measure, clinic, known, compared.known(cube, clinic).share().map(share -> 100 * share));
    }
  }

  /** A model's fit and terms, and the clinics' rates beside it. */
  void mix(MixOutcome outcome, Reckoned<MixModel> fitted, List<Expected> expected) {
    if (fitted.result().isEmpty()) {
      sheet.absent(outcome.measure(), Slice.ALL, CASES, fitted.reason());
      return;
    }
    MixModel model = fitted.result().get();
    double overall = (double) model.events() / model.cases();
    overall(outcome, model, overall);
    performance(outcome.measure(), model.performance());
    model.terms().forEach(term -> term(outcome.measure(), term));
    expected.stream()
        .sorted((one, other) -> one.clinic().compareTo(other.clinic()))
        .forEach(each -> rate(outcome, each, overall));
  }

  private void overall(MixOutcome outcome, MixModel model, double overall) {
    Measure measure = outcome.measure();
    Statistic share = Statistic.share("overall", "Share over all, p0");
    if (outcome.hidden(cells, Slice.ALL)) {
      sheet.hide(measure, Slice.ALL, CASES);
      sheet.hide(measure, Slice.ALL, share);
    } else {
      sheet.value(measure, Slice.ALL, CASES, model.cases());
      sheet.value(measure, Slice.ALL, share, 100 * overall);
    }
  }

  private void performance(Measure measure, CaseMix.Performance of) {
    plain(measure, Slice.ALL, "c", "c statistic", of.concordance());
    plain(measure, Slice.ALL, "brier", "Brier score", of.brier());
    plain(measure, Slice.ALL, "calibration-slope", "Calibration slope", of.calibrationSlope());
  }

  private void term(Measure measure, MixModel.Term term) {
    Slice slice = new Slice(Dimension.TERM, term.name());
    plain(
        measure, slice, "coefficient", "Coefficient, log odds", Reckoned.known(term.coefficient()));
    plain(measure, slice, "standard-error", "Standard error", Reckoned.known(term.standardError()));
  }

  private void plain(
      Measure measure, Slice slice, String code, String title, Reckoned<Double> value) {
    sheet.value(measure, slice, Statistic.plain(code, title), value);
  }

  private void rate(MixOutcome outcome, Expected expected, double overall) {
    Measure measure = outcome.measure();
    Slice clinic = expected.clinic();
    Statistic rate = Statistic.share("adjusted", "Adjusted rate");
    // What is expected and the rate together say to how many it happened.
    if (outcome.compared().hidden(cells, clinic) || outcome.hidden(cells, clinic)) {
      sheet.hide(measure, clinic, rate);
      return;
    }
    sheet.value(measure, clinic, Statistic.count("expected", "Expected, E"), expected.expected());
    sheet.value(measure, clinic, rate, 100 * expected.observed() / expected.expected() * overall);
    Statistic z = Statistic.plain("z", "z");
    // A case that lacks what the model needs is no better known to it than one without an end.
    if (!outcome.compared().judged(cube, clinic, expected.cases())) {
      sheet.absent(measure, clinic, z, Compared.NOT_JUDGED);
    } else {
      sheet.value(
          measure,
          clinic,
          z,
          (expected.observed() - expected.expected()) / Math.sqrt(expected.variance()));
    }
  }
}
