package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A hidden count stands nowhere else in the report under another name. */
class ToldElsewhereTest {

  private static final LocalDate CUT_OFF = LocalDate.of(2026, 6, 30);

  @TempDir Path cases;

  @BeforeEach
  void write() throws Exception {
    OutcomeRows.write(cases, 4000, 30);
  }

  private Report report() throws Exception {
    return Reports.over(cases).of(ReportQuestion.at(CUT_OFF));
  }

  private static Figure figure(Report report, Measure measure, Slice slice, String statistic) {
    return report.of(measure).stream()
        .filter(each -> each.slice().equals(slice) && each.statistic().code().equals(statistic))
        .findFirst()
        .orElseThrow();
  }

  private static Figure present(Report report, String field) {
    return figure(report, Measure.COMPLETENESS, new Slice(Dimension.FIELD, field), "present");
  }

  @Test
  void whoLacksAGroupIsNotToldByTheMissingField() throws Exception {
    OutcomeRows.change(
        cases,
        "CASE WHEN sequence < 3 THEN NULL ELSE coalesce(growth_stage, 'CS3') END AS growth_stage");
    Report report = report();
    Slice without = new Slice(Dimension.GROWTH, Members.NOT_RECORDED);
    assertThat(figure(report, Measure.STANDING, without, "cases").hidden()).isTrue();
    assertThat(present(report, "growth stage").hidden()).isTrue();
    assertThat(present(report, "age months").hidden()).isFalse();
  }

  @Test
  void fewThatHaveAFieldAreNotToldByIt() throws Exception {
    OutcomeRows.change(cases, "CASE WHEN sequence < 3 THEN 11.5 END AS wear_measured");
    Report report = report();
    assertThat(figure(report, Measure.WEAR_MEASURED, Slice.ALL, "cases").hidden()).isTrue();
    assertThat(present(report, "wear measured").hidden()).isTrue();
  }

  @Test
  void fewCasesAreNotToldByTheRows() throws Exception {
    OutcomeRows.write(cases, 4, 2);
    Report report = report();
    assertThat(figure(report, Measure.STANDING, Slice.ALL, "cases").hidden()).isTrue();
    assertThat(figure(report, Measure.COUNTING, Slice.ALL, "rows").hidden()).isTrue();
    assertThat(figure(report, Measure.COUNTING, Slice.ALL, "counted").hidden()).isTrue();
  }

  @Test
  void onlyTheClinicsShownMoveTheLimits() throws Exception {
    Report report = report();
    Measure funnel = Measure.FUNNEL_DISCONTINUED;
    List<Figure> clinics =
        report.of(funnel).stream()
            .filter(each -> each.slice().dimension() == Dimension.CLINIC)
            .toList();
    assertThat(clinics).anyMatch(Figure::hidden);
    assertThat(figure(report, funnel, Slice.ALL, "clinics").value())
        .isEqualTo(
            (double)
                clinics.stream()
                    .filter(each -> each.statistic().code().equals("z") && each.value() != null)
                    .count());
  }

  @Test
  void theModelDoesNotTellWhatAClinicsShareHides() throws Exception {
    Report report = report();
    List<Gathered.Expected> expected;
    Cube cube;
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      Gathering gathering = new Gathering(rows, ReportQuestion.at(CUT_OFF));
      Gathered gathered = gathering.gather();
      expected = Models.fitted(gathering).expected(MixOutcome.DISCONTINUED);
      new Counts(gathered, Models.fitted(gathering).expected());
      cube = gathered.cube();
    }
    Set<Integer> few = Set.of(1, 2, 3, 4);
    int seen = 0;
    for (Gathered.Expected each : expected) {
      int left = cube.count(each.clinic(), "end_discontinued") - each.observed();
      if (few.contains(each.observed()) || few.contains(left)) {
        seen++;
        assertThat(figure(report, Measure.MIX_DISCONTINUED, each.clinic(), "adjusted").hidden())
            .as(each.toString())
            .isTrue();
      }
    }
    assertThat(seen).isPositive();
  }

  @Test
  void theLastDayOfACurveLeavesNoFew() throws Exception {
    OutcomeRows.write(cases, 400, 6);
    // Three are completed long after all others, while many are followed still.
    OutcomeRows.change(
        cases,
        "CASE WHEN status <> 'completed' THEN treatment_days"
            + " WHEN start_year = 2017"
            + " AND row_number() OVER (PARTITION BY status, start_year ORDER BY sequence) <= 3"
            + " THEN 1700 ELSE least(treatment_days, 690) END AS treatment_days");
    int last =
        report().of(Measure.LENGTH_CURVE).stream()
            .mapToInt(each -> Integer.parseInt(each.slice().member()))
            .max()
            .orElseThrow();
    List<Gathered.Ends> ends;
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      ends = new Gathering(rows, ReportQuestion.at(CUT_OFF)).gather().ends();
    }
    for (Set<Standing> kind :
        List.of(
            Set.of(Standing.COMPLETED),
            Set.of(Standing.COMPLETED, Standing.DISCONTINUED),
            Set.of(Standing.GOING_ON, Standing.TRANSFERRED, Standing.UNKNOWN))) {
      int later =
          ends.stream()
              .filter(each -> each.slice().equals(Slice.ALL) && kind.contains(each.standing()))
              .filter(each -> each.day() > last)
              .mapToInt(Gathered.Ends::cases)
              .sum();
      assertThat(later).as(kind + " after " + last).matches(count -> count == 0 || count >= 5);
    }
  }
}
