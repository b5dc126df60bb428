package org.intercusp.rules;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.rules.figure.TreatmentFigures;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/** Computes the figures of a treatment and runs every rule on it. */
public final class Examiner {

  private static final Comparator<Judged> ORDER =
      Comparator.comparing((Judged judged) -> judged.finding().severity())
          .thenComparing(judged -> judged.finding().pointer().text(), new PointerOrder())
          .thenComparing(judged -> judged.finding().code());

  private final Limits limits;

  /** With the usual limits. */
  public Examiner() {
    this(Limits.USUAL);
  }

  public Examiner(Limits limits) {
    this.limits = limits;
  }

  /**
   * Examines a treatment.
   *
   * @param on the day it is; ages and intervals are counted at it
   */
  public Examination examine(Treatment treatment, LocalDate on) {
    Case about = Case.of(treatment, on, limits);
    List<Judged> findings =
        RuleCatalogue.findings(about)
            .map(finding -> new Judged(finding, acceptanceOf(finding, treatment)))
            .sorted(ORDER)
            .toList();
    return new Examination(treatment.id(), on, TreatmentFigures.of(about), findings, limits);
  }

  /** The latest acceptance that counts for a finding, however its numbers are written. */
  private static @Nullable Acceptance acceptanceOf(Finding finding, Treatment treatment) {
    boolean weighs = finding.severity() == Severity.ERROR || finding.severity() == Severity.URGENT;
    if (!weighs || !RuleCatalogue.acceptable(finding.code())) {
      return null;
    }
    return treatment.acceptances().stream()
        .filter(acceptance -> acceptance.finding().equals(finding.code()))
        .filter(acceptance -> acceptance.subject().equals(finding.subject()))
        .filter(acceptance -> acceptance.values().equals(finding.values()))
        .max(Comparator.comparing(Acceptance::on))
        .orElse(null);
  }
}
