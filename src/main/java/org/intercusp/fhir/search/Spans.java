package org.intercusp.fhir.search;

import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.hl7.fhir.r4.model.BaseDateTimeType;

/**
 * Days and times of day as spans of time. Days without a zone are counted in UTC, in resources as
 * in searches, so that a day finds itself wherever the service runs.
 */
public final class Spans {

  private Spans() {}

  /**
   * A span of time.
   *
   * @param begins the first instant in it
   * @param ends the first instant after it
   */
  public record Span(Instant begins, Instant ends) {
    private static Span of(LocalDate first, LocalDate after) {
      return new Span(start(first), start(after));
    }

    private static Instant start(LocalDate day) {
      return day.atStartOfDay(ZoneOffset.UTC).toInstant();
    }
  }

  /** The span that a date or time of FHIR stands for; empty where there is none. */
  public static Optional<Span> of(BaseDateTimeType time) {
    if (time.getValue() == null) {
      return Optional.empty();
    }
    String text = time.getValueAsString();
    return Optional.of(
        switch (time.getPrecision()) {
          case YEAR -> {
            LocalDate first = LocalDate.of(Integer.parseInt(text), 1, 1);
            yield Span.of(first, first.plusYears(1));
          }
          case MONTH -> {
            LocalDate first = YearMonth.parse(text).atDay(1);
            yield Span.of(first, first.plusMonths(1));
          }
          case DAY -> {
            LocalDate day = LocalDate.parse(text);
            yield Span.of(day, day.plusDays(1));
          }
          case MINUTE -> lasting(time, ChronoUnit.MINUTES);
          case SECOND -> lasting(time, ChronoUnit.SECONDS);
          case MILLI -> lasting(time, ChronoUnit.MILLIS);
        });
  }

  private static Span lasting(BaseDateTimeType time, ChronoUnit unit) {
    Instant begins = time.getValue().toInstant().truncatedTo(unit);
    return new Span(begins, begins.plus(1, unit));
  }
}
