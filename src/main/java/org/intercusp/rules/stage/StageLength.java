package org.intercusp.rules.stage;

import java.math.BigDecimal;
import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Stage;

/** Stages are as long as is usual; several active stages count together. */
final class StageLength implements Rule {

  static final String CODE = "stage-length";

  /** The active phase of one trial: 340 days (SD 102), inside the limits of common practice. */
  static final String TRIAL = "Angle Orthod 2020;90:202-208";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the months of all active stages together, of support, and of retention")
        .limit(
            "active 6 to 12 months, support 3 to 6, retention at least 9 (common practice; one"
                + " trial's active phase averaged 340 days, SD 102: "
                + TRIAL
                + ")",
            Limit.ACTIVE_SHORTEST,
            Limit.ACTIVE_LONGEST,
            Limit.SUPPORT_SHORTEST,
            Limit.SUPPORT_LONGEST,
            Limit.RETENTION_SHORTEST)
        .about(
            "/stages/*/months",
            "Bundle.entry.resource.ofType(CarePlan).where(partOf.exists()).period")
        .remedy("Plan the usual length, or tell the patient why this stage differs.")
        .samples(
            Sample.failing("/stages/0/months", "{\"/stages/0/months\": 13}"),
            Sample.passing("{\"/stages/0/months\": 12}"));
  }

  @Override
  public void check(Case about, Findings found) {
    List<Stage> stages = about.treatment().stages();
    int active = 0;
    int last = -1;
    for (int i = 0; i < stages.size(); i++) {
      Stage stage = stages.get(i);
      switch (stage.kind()) {
        case ACTIVE -> {
          active += stage.months();
          last = i;
        }
        case SUPPORT ->
            within(about, i, stage.months(), Limit.SUPPORT_SHORTEST, Limit.SUPPORT_LONGEST, found);
        case RETENTION -> atLeast(about, i, stage.months(), found);
        case FIXED -> {
          // Fixed braces are outside what the product plans.
        }
      }
    }
    if (last >= 0) {
      within(about, last, active, Limit.ACTIVE_SHORTEST, Limit.ACTIVE_LONGEST, found);
    }
  }

  private static void within(
      Case about, int index, int months, Limit low, Limit high, Findings found) {
    BigDecimal length = BigDecimal.valueOf(months);
    if (length.compareTo(about.limits().of(low)) < 0
        || length.compareTo(about.limits().of(high)) > 0) {
      Stage stage = about.treatment().stages().get(index);
      found
          .warning(Pointer.of("stages", index, "months"), stage.id())
          .value("months", months)
          .limit(low, high)
          .says(
              "The %s phase is planned for %s; %s to %s are usual."
                  .formatted(
                      stage.kind().code(),
                      Unit.MONTH.behind(months),
                      Shown.of(about.limits().of(low)),
                      Shown.of(about.limits().of(high))));
    }
  }

  private static void atLeast(Case about, int index, int months, Findings found) {
    BigDecimal least = about.limits().of(Limit.RETENTION_SHORTEST);
    if (BigDecimal.valueOf(months).compareTo(least) < 0) {
      found
          .warning(
              Pointer.of("stages", index, "months"), about.treatment().stages().get(index).id())
          .value("months", months)
          .limit(Limit.RETENTION_SHORTEST)
          .says(
              "Retention is planned for %s; at least %s are usual."
                  .formatted(Unit.MONTH.behind(months), Shown.of(least)));
    }
  }
}
