package org.intercusp.conformance;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * The trade layer: what a Bundle says of a treatment is read back as a treatment file would be, and
 * every rule is run on it, so that a Bundle somebody else wrote is judged as strictly as our own.
 */
final class TradeRules {

  /** What a page of them holds may go on on the next one, so that no treatment is whole in it. */
  private static final Set<BundleType> PAGES = Set.of(BundleType.SEARCHSET, BundleType.HISTORY);

  private final TreatmentMapper mapper;
  private final Examiner examiner;
  private final Clock clock;
  private final @Nullable LocalDate day;

  TradeRules(TreatmentMapper mapper, Examiner examiner, Clock clock) {
    this(mapper, examiner, clock, null);
  }

  private TradeRules(
      TreatmentMapper mapper, Examiner examiner, Clock clock, @Nullable LocalDate day) {
    this.mapper = mapper;
    this.examiner = examiner;
    this.clock = clock;
    this.day = day;
  }

  /** The same on a day, whatever day a treatment speaks of. */
  TradeRules on(LocalDate other) {
    return new TradeRules(mapper, examiner, clock, other);
  }

  /** Issues of every treatment in the Bundle; none where it holds no whole treatment. */
  List<Issue> judge(Bundle bundle) {
    if (bundle.getType() != null && PAGES.contains(bundle.getType())) {
      return List.of();
    }
    List<Issue> issues = new ArrayList<>();
    for (ReadBack read : mapper.treatments(bundle)) {
      read.faults().forEach(fault -> issues.add(placed(fault, bundle, read)));
      read.unplaced()
          .forEach(
              stray ->
                  issues.add(
                      new Issue(
                          Weight.INFORMATION,
                          "informational",
                          "fhir-unplaced",
                          "This has no place in a treatment and was left aside.",
                          Expressions.resolving(bundle, stray.expression()),
                          stray.value(),
                          null,
                          null)));
      Treatment treatment = read.treatment();
      if (treatment != null) {
        examined(treatment, bundle, read, issues);
      }
    }
    return issues;
  }

  private void examined(Treatment treatment, Bundle bundle, ReadBack read, List<Issue> issues) {
    for (Judged judged : examiner.examine(treatment, day(treatment)).findings()) {
      Issue issue = placed(judged.finding(), bundle, read);
      issues.add(accepted(issue, judged.acceptance()));
    }
  }

  private LocalDate day(Treatment treatment) {
    return day == null ? treatment.dayOr(today()) : day;
  }

  /** The day of a treatment that does not say which day it speaks of. */
  LocalDate today() {
    return day == null ? LocalDate.now(clock) : day;
  }

  private static Issue placed(Finding finding, Bundle bundle, ReadBack read) {
    String at = read.expression(finding.pointer()).orElse("Bundle");
    return Outcomes.issue(finding, Expressions.resolving(bundle, at));
  }

  // An accepted error travels with its reason and stops nothing.
  private static Issue accepted(Issue issue, @Nullable Acceptance acceptance) {
    if (acceptance == null || !issue.weight().stops()) {
      return issue;
    }
    return new Issue(
        Weight.INFORMATION,
        issue.type(),
        issue.rule(),
        issue.text() + " Accepted: " + acceptance.reason(),
        issue.expression(),
        issue.value(),
        issue.line(),
        issue.column());
  }
}
