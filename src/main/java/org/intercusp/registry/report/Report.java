package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The registry's report: every figure once, in the order it is shown, the same in every form. */
public record Report(ReportQuestion question, List<Figure> figures) {

  public Report {
    figures = List.copyOf(figures);
  }

  /** Gathers from an engine, fits the models and reckons every figure. */
  public static Report of(RowSource source, ReportQuestion question) {
    Gathering gathering = new Gathering(source, question);
    Gathered gathered = gathering.gather();
    return of(question, gathered, Models.fitted(gathering));
  }

  /** Reckons every figure from what was gathered; the same whatever engine gathered it. */
  private static Report of(ReportQuestion question, Gathered gathered, Models models) {
    Sheet sheet = new Sheet();
    Cube cube = gathered.cube();
    Counts counts = new Counts(gathered, models.expected());
    SmallCells cells = new SmallCells(cube, question.threshold());
    QualityFigures quality = new QualityFigures(cells, sheet);
    quality.counting(gathered.counting());
    outcomes(cube, cells, sheet);
    CourseFigures course = new CourseFigures(counts, cube, cells, sheet, question.threshold());
    cube.slices().forEach(course::standing);
    cube.slices().forEach(course::length);
    course.curves();
    cube.slices().forEach(course::discontinuation);
    cube.slices().forEach(course::breakages);
    cube.slices().forEach(course::harms);
    ClinicFigures clinics = new ClinicFigures(cube, cells, sheet);
    clinics.funnel(Measure.FUNNEL_DISCONTINUED, Compared.DISCONTINUED);
    clinics.funnel(Measure.FUNNEL_GREATLY, Compared.GREATLY_IMPROVED);
    models
        .fits()
        .forEach((outcome, model) -> clinics.mix(outcome, model, models.expected(outcome)));
    quality.agreement(gathered.twice(), question.threshold());
    quality.completeness(gathered.known());
    List<Figure> ordered = new ArrayList<>(sheet.figures());
    ordered.sort(Comparator.comparing(Figure::measure));
    return new Report(question, ordered);
  }

  private static void outcomes(Cube cube, SmallCells cells, Sheet sheet) {
    OutcomeFigures outcomes = new OutcomeFigures(cube, cells, sheet);
    for (Slice slice : cube.slices()) {
      outcomes.par(Measure.PAR_UK, slice, "uk");
      outcomes.par(Measure.PAR_US, slice, "us");
      outcomes.icon(slice);
      outcomes.dhc(slice);
      outcomes.measurement(Measure.OVERJET, slice, "oj");
      outcomes.measurement(Measure.OVERBITE, slice, "ob");
      outcomes.wear(Measure.WEAR_REPORTED, slice, "wear_reported");
      outcomes.wear(Measure.WEAR_MEASURED, slice, "wear_measured");
    }
    outcomes.par(Measure.PAR_UK_COMPLETED, Slice.ALL, Cube.COMPLETED + "uk");
    outcomes.par(Measure.PAR_US_COMPLETED, Slice.ALL, Cube.COMPLETED + "us");
  }

  /** The figures of one measure. */
  public List<Figure> of(Measure measure) {
    return figures.stream().filter(each -> each.measure() == measure).toList();
  }

  /** The dimensions a measure's figures are grouped by, in order. */
  public List<Dimension> dimensions(Measure measure) {
    return of(measure).stream().map(each -> each.slice().dimension()).distinct().sorted().toList();
  }

  /** The statistics of a measure within a dimension, in the order they first come. */
  public List<Statistic> statistics(Measure measure, Dimension dimension) {
    return of(measure).stream()
        .filter(each -> each.slice().dimension() == dimension)
        .map(Figure::statistic)
        .distinct()
        .toList();
  }
}
