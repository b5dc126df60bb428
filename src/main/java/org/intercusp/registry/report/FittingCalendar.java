package org.intercusp.registry.report;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.intercusp.analysis.cohort.Discontinuation;

/**
 * What a month of first fitting means at the cut-off. A date reduced to the quarter or year is kept
 * as the first month of it and may mean any day up to the last.
 */
record FittingCalendar(ReportQuestion question) {

  /** A row a month. */
  String sql(List<YearMonth> months) {
    StringBuilder rows = new StringBuilder("SELECT * FROM (VALUES (CAST(NULL AS STRING), 0, 0, 0)");
    for (YearMonth month : months) {
      rows.append(", ('")
          .append(month)
          .append("', ")
          .append(longEnough(month) ? 1 : 0)
          .append(", ")
          .append(toCutOff(month.atDay(15)))
          .append(", ")
          .append(toCutOff(middle(month)))
          .append(')');
    }
    return rows.append(") AS t (month, long_enough, days_to_cut_off, days_followed)").toString();
  }

  /** By the last day it may mean, so that no case is taken before its time. */
  boolean longEnough(YearMonth month) {
    LocalDate last = month.plusMonths(question.dateMonths() - 1L).atEndOfMonth();
    return !last.plusMonths(Discontinuation.MONTHS).isAfter(question.cutOff());
  }

  /** Of the time it may stand for, all of which lies on one side of the cut-off. */
  LocalDate middle(YearMonth month) {
    int months = question.dateMonths();
    return month.plusMonths(months / 2).atDay(months % 2 == 0 ? 1 : 15);
  }

  private long toCutOff(LocalDate day) {
    return ChronoUnit.DAYS.between(day, question.cutOff());
  }
}
