package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Who has no age is in a group of their own, and not among the oldest. */
class AgeNotRecordedTest {

  @TempDir Path cases;

  @BeforeEach
  void write() throws Exception {
    OutcomeRows.write(cases, 3000, 12);
    OutcomeRows.change(
        cases, "CASE WHEN sequence % 5 = 0 THEN NULL ELSE age_months END AS age_months");
  }

  private List<Figure> ages(int threshold) throws Exception {
    return Reports.over(cases)
        .of(new ReportQuestion(LocalDate.of(2026, 6, 30), threshold))
        .of(Measure.STANDING)
        .stream()
        .filter(each -> each.slice().dimension() == Dimension.AGE)
        .filter(each -> each.statistic().code().equals("cases"))
        .toList();
  }

  @Test
  void isAGroupOfItsOwn() throws Exception {
    List<Figure> ages = ages(1);
    // In this order, the unrecorded last.
    assertThat(ages)
        .extracting(each -> each.slice().member())
        .containsExactly("under 10", "10-11", "12-13", "14-15", "16 and over", "not recorded");
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      new Gathering(rows, ReportQuestion.at(LocalDate.of(2026, 6, 30))).gather();
      rows.each(
          "SELECT count(*) FILTER (WHERE age_months IS NULL) AS missing,"
              + " count(*) FILTER (WHERE age_months >= 192) AS oldest FROM counted",
          row -> {
            assertThat(ages.get(5).value()).isEqualTo((double) row.whole("missing")).isPositive();
            assertThat(ages.get(4).value()).isEqualTo((double) row.whole("oldest"));
          });
    }
  }

  @Test
  void fewAreHiddenLikeAnyOtherGroup() throws Exception {
    OutcomeRows.change(
        cases,
        "coalesce(age_months, CASE WHEN sequence <= 10 THEN NULL ELSE 140 END) AS age_months");
    List<Figure> ages = ages(5);
    assertThat(ages.get(ages.size() - 1).slice().member()).isEqualTo("not recorded");
    assertThat(ages.get(ages.size() - 1).hidden()).isTrue();
    // One alone could be worked out from the total.
    assertThat(ages.stream().filter(Figure::hidden).count()).isGreaterThan(1);
  }
}
