package org.intercusp.rules;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Limits;
import org.jspecify.annotations.Nullable;

/**
 * What was computed from a treatment and found in it.
 *
 * @param treatment id of the treatment
 * @param on the day it was examined for
 * @param figures in the order of the record
 * @param findings by severity, then pointer, then code
 * @param limits it went by
 */
public record Examination(
    String treatment, LocalDate on, List<Figure> figures, List<Judged> findings, Limits limits) {

  public Examination {
    figures = List.copyOf(figures);
    findings = List.copyOf(findings);
  }

  /** What was found, without what a clinician answered to it. */
  public List<Finding> plainFindings() {
    return findings.stream().map(Judged::finding).toList();
  }

  /** Whether the record may be delivered: nothing refused and no error left unaccepted. */
  public boolean mayGo() {
    return findings.stream().noneMatch(Judged::stops);
  }

  /** Whether there is a sign of harm: the record goes at once, marked urgent. */
  public boolean urgent() {
    return findings.stream().anyMatch(judged -> judged.finding().severity() == Severity.URGENT);
  }

  /** Whether there is a sign of harm that no clinician has answered yet. */
  public boolean harmUnanswered() {
    return findings.stream().anyMatch(Judged::stopsOrders);
  }

  /**
   * Whether there is a sign of harm that nobody has answered and that was not there before.
   *
   * @param before the same treatment earlier, examined for the same day; null where there was none
   */
  public boolean bringsHarm(@Nullable Examination before) {
    Set<String> known = before == null ? Set.of() : before.unanswered().collect(Collectors.toSet());
    return unanswered().anyMatch(harm -> !known.contains(harm));
  }

  private Stream<String> unanswered() {
    return findings.stream()
        .filter(Judged::stopsOrders)
        .map(Judged::finding)
        .map(harm -> harm.code() + "|" + harm.subject() + "|" + harm.message());
  }

  /**
   * Whether the next appliance may be ordered. A sign of harm stops the order until a clinician has
   * answered it with a reason; an unaccepted error stops it as it stops a delivery.
   */
  public boolean mayOrderAppliance() {
    return mayGo() && !harmUnanswered();
  }
}
