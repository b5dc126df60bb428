package org.intercusp.web.pages;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.worklist.Entry;
import org.intercusp.worklist.Found;
import org.jspecify.annotations.Nullable;

/**
 * A treatment in the list, in words.
 *
 * @param clinicName where several clinics have treatments here, else empty
 * @param marks why it needs attention
 */
public record WorklistRow(
    String href,
    String id,
    String name,
    String number,
    String clinicName,
    String status,
    List<Mark> marks,
    String overjet,
    String target,
    String review) {

  /** A reason for attention and the style it is shown in. */
  public record Mark(String style, String words) {}

  static WorklistRow of(Found.Listed listed, long clinics, LocalDate today) {
    Entry entry = listed.entry();
    return new WorklistRow(
        Place.of("treatments", entry.key().treatment())
            .with("clinic", clinics > 1 ? entry.key().reached().written() : null)
            .toString(),
        entry.key().treatment(),
        entry.patientName(),
        entry.patientNumber(),
        clinics > 1 ? entry.clinicName() : "",
        status(entry),
        marks(listed),
        overjet(entry),
        entry.overjetTarget() == null ? "" : "goal " + Numbers.of(entry.overjetTarget()) + " mm",
        review(entry.nextFrom(), entry.nextBy(), today));
  }

  private static String status(Entry entry) {
    String status = Trade.words(entry.status());
    return entry.stage() == null ? status : status + ", " + Trade.words(entry.stage()) + " stage";
  }

  private static List<Mark> marks(Found.Listed listed) {
    Entry entry = listed.entry();
    List<Mark> marks = new ArrayList<>();
    if (entry.urgent() > 0) {
      marks.add(new Mark("urgent", counted(entry.urgent(), "sign of harm", "signs of harm")));
    }
    if (entry.errors() > 0) {
      marks.add(new Mark("error", counted(entry.errors(), "error", "errors") + " to answer"));
    }
    if (listed.overdue()) {
      marks.add(new Mark("overdue", "review overdue"));
    }
    if (listed.delivery()) {
      marks.add(new Mark("stuck", "delivery stuck"));
    }
    if (listed.proposal()) {
      marks.add(new Mark("proposed", "changed elsewhere"));
    }
    if (entry.consent() != null) {
      marks.add(new Mark("stuck", "consent " + entry.consent()));
    }
    if (entry.warnings() > 0) {
      marks.add(new Mark("warning", counted(entry.warnings(), "warning", "warnings")));
    }
    return marks;
  }

  private static String counted(int count, String one, String many) {
    return count + " " + (count == 1 ? one : many);
  }

  private static String overjet(Entry entry) {
    BigDecimal start = entry.overjetStart();
    BigDecimal now = entry.overjetNow();
    if (start == null) {
      return "";
    }
    return now == null
        ? Numbers.of(start) + " mm"
        : Numbers.of(start) + " to " + Numbers.of(now) + " mm";
  }

  private static String review(@Nullable LocalDate from, @Nullable LocalDate by, LocalDate today) {
    if (by == null) {
      return "none due";
    }
    long late = ChronoUnit.DAYS.between(by, today);
    String day = from == null || from.equals(by) ? by.toString() : from + " to " + by;
    if (late > 0) {
      return day + ", " + counted((int) late, "day", "days") + " ago";
    }
    return late == 0 ? day + ", today" : day;
  }
}
