package org.intercusp.web.pages.entry;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.pages.BitePicture;
import org.jspecify.annotations.Nullable;

/**
 * Compares the record with and without an entry. While needed members are missing they have
 * stand-ins, and only what does not depend on these is shown: figures by what they are computed
 * from, and signs of harm.
 */
final class Live {

  private final Examinations examinations;

  Live(Examinations examinations) {
    this.examinations = examinations;
  }

  /** Examines a treatment for a day. */
  interface Examinations {
    Examination of(Treatment treatment, LocalDate on);

    LocalDate day(Treatment treatment);
  }

  /** What follows from an entry; {@code open} names the fields that hold it up. */
  LiveView of(Sheet sheet, Treatment before, Trial trial, Trial completed, List<String> open) {
    Treatment after = trial.treatment() != null ? trial.treatment() : completed.treatment();
    if (after == null) {
      return new LiveView(said(List.of(), open), open, List.of(), List.of(), List.of(), "", null);
    }
    Set<String> missing = trial.faultyMembers();
    LocalDate day = examinations.day(after);
    Examination then = examinations.of(after, day);
    Examination now = examinations.of(before, day);
    List<Finding> gained =
        without(then, now).stream()
            .filter(finding -> missing.isEmpty() || isHarmOf(finding, missing))
            .toList();
    List<LiveView.Line> figures = Figures.of(sheet, before, after, now, then, missing);
    // A finding says what was typed: none is shown whose words could hold a stand-in.
    List<Finding> told = missing.isEmpty() ? gained : List.of();
    return new LiveView(
        said(told, open) + Figures.said(figures),
        open,
        figures,
        shown(told),
        missing.isEmpty() ? shown(without(now, then)) : List.of(),
        gained.stream().anyMatch(Live::isHarm) ? harm(then, missing) : "",
        missing.isEmpty() ? drawing(sheet, before, after, then) : null);
  }

  private static List<Told> shown(List<Finding> findings) {
    return findings.stream().map(finding -> Told.of(finding)).toList();
  }

  private static List<Finding> without(Examination all, Examination known) {
    Set<String> there =
        known.findings().stream().map(Judged::finding).map(Live::key).collect(Collectors.toSet());
    return all.findings().stream()
        .map(Judged::finding)
        .filter(finding -> !there.contains(key(finding)))
        .toList();
  }

  private static String key(Finding finding) {
    return finding.code() + "|" + finding.subject() + "|" + finding.message();
  }

  private static boolean isHarm(Finding finding) {
    return finding.severity() == Severity.URGENT;
  }

  /** A sign of harm whose member is there, stand-ins for less telling parts of it allowed. */
  private static boolean isHarmOf(Finding finding, Set<String> missing) {
    String[] steps = finding.pointer().text().split("/", -1);
    boolean rows = steps.length > 4;
    return isHarm(finding) && (rows || (steps.length > 3 && !missing.contains(steps[3])));
  }

  private static String harm(Examination then, Set<String> missing) {
    String does =
        "This is a sign of harm. Once saved it goes out at once, marked urgent, to every recipient"
            + " that consent covers. It stops only the next appliance order, until a clinician"
            + " answers it with a reason.";
    boolean held = missing.isEmpty() && !then.mayGo();
    return held
        ? does + " Errors of this record that nobody has accepted still hold deliveries back."
        : does;
  }

  private static String said(List<Finding> findings, List<String> open) {
    String needed = open.isEmpty() ? "" : open.size() + " still open. ";
    if (findings.isEmpty()) {
      return open.isEmpty() ? "No findings from this entry. " : needed;
    }
    return needed
        + findings.stream()
            .collect(
                Collectors.groupingBy(
                    finding -> finding.severity().code(), TreeMap::new, Collectors.counting()))
            .entrySet()
            .stream()
            .map(entry -> entry.getKey() + " " + entry.getValue())
            .collect(Collectors.joining(", ", "Findings: ", ". "));
  }

  private static @Nullable String drawing(
      Sheet sheet, Treatment before, Treatment after, Examination then) {
    if (!sheet.list().equals("bites")) {
      return null;
    }
    return after.bites().stream()
        .filter(bite -> before.bites().stream().noneMatch(old -> old.id().equals(bite.id())))
        .findFirst()
        .map(bite -> BitePicture.of(bite, then))
        .orElse(null);
  }
}
