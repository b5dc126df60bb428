package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Tries to work hidden counts back from what the report publishes: all that adds up as linear
 * equations over counts of 0 and more; whatever can be one number only is a leak.
 */
class SmallCellsTest {

  @TempDir Path cases;

  @ParameterizedTest
  @CsvSource({"60, 3", "120, 5", "250, 6", "700, 7", "900, 8", "4000, 30"})
  void nothingHiddenCanBeWorkedBack(int number, int clinics) throws Exception {
    OutcomeRows.write(cases, number, clinics);
    Cube cube = counted();
    SmallCells cells = new SmallCells(cube, 5);
    Attack attack = new Attack(cube, cells::hidden);
    assertThat(attack.unknowns()).isPositive();
    assertThat(attack.workedBack(5)).isEmpty();
    // Without company for the small ones the same attack finds some: it can fail.
    Attack easy = new Attack(cube, (slice, column) -> small(cube.count(slice, column)));
    assertThat(easy.workedBack(5)).isNotEmpty();
  }

  @Test
  void theFewWhoEndedEarlyDoNotHideWhatClinicsAreComparedBy() throws Exception {
    OutcomeRows.write(cases, 6000, 31);
    // Of those fitted in the last two years most go on, few have completed and more have stopped.
    OutcomeRows.change(
        cases,
        "CASE WHEN start_year < 2024 THEN status WHEN hash(sequence) % 40 = 0 THEN 'completed'"
            + " WHEN hash(sequence) % 5 = 1 THEN 'patient-stopped'"
            + " WHEN hash(sequence) % 20 = 2 THEN 'unknown' ELSE 'in-treatment' END AS status");
    Cube cube = counted();
    SmallCells cells = new SmallCells(cube, 5);
    List<Slice> clinics = List.copyOf(cube.slices(Dimension.CLINIC));
    assertThat(clinics)
        .filteredOn(clinic -> small(cube.count(clinic, "recent_completed")))
        .hasSizeGreaterThan(5);
    assertThat(clinics)
        .filteredOn(clinic -> cells.hidden(clinic, "end_discontinued"))
        .hasSizeLessThan(clinics.size() / 4);
    assertThat(new Attack(cube, cells::hidden).workedBack(5)).isEmpty();
  }

  private static boolean small(int count) {
    return count > 0 && count < 5;
  }

  private Cube counted() throws Exception {
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      Gathering gathering = new Gathering(rows, ReportQuestion.at(LocalDate.of(2026, 6, 30)));
      Gathered gathered = gathering.gather();
      new Counts(gathered, Models.fitted(gathering).expected());
      return gathered.cube();
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {250, 4000})
  void noSmallCountIsPublished(int number) throws Exception {
    OutcomeRows.write(cases, number, 30);
    Report report = Reports.over(cases).of(ReportQuestion.at(LocalDate.of(2026, 6, 30)));
    List<Measure> ofRecords = List.of(Measure.COUNTING, Measure.COMPLETENESS);
    assertThat(report.figures())
        .filteredOn(
            figure ->
                figure.value() != null
                    && figure.statistic().unit().equals("{case}")
                    && !ofRecords.contains(figure.measure()))
        .filteredOn(figure -> !figure.statistic().code().equals("expected"))
        .noneMatch(figure -> figure.value() > 0 && figure.value() < 5);
    // A share of a count gives the count: where the count is hidden so is the share and its
    // interval.
    Map<String, Figure> byKey = new HashMap<>();
    report
        .figures()
        .forEach(
            figure ->
                byKey.put(
                    figure.measure() + "|" + figure.slice() + "|" + figure.statistic().code(),
                    figure));
    byKey.forEach(
        (key, figure) -> {
          if (figure.hidden()) {
            for (String suffix : List.of("-share", "-share-low", "-share-high")) {
              Figure share = byKey.get(key + suffix);
              assertThat(share == null || share.hidden()).as(key + suffix).isTrue();
            }
          }
        });
  }
}
