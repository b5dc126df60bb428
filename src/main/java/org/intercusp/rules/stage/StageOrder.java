package org.intercusp.rules.stage;

import java.math.BigDecimal;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Treatment;

/** Stages follow each other without overlap or long gap, in the order of a treatment. */
final class StageOrder implements Rule {

  static final String CODE = "stage-order";
  private static final Pattern ORDER = Pattern.compile("A+S?F?R");

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares("the start of each stage with the end of the one before, and their kinds")
        .limit(
            "no overlap, a gap of at most 14 days; active (one or more), then support, fixed (each"
                + " may be left out), then retention",
            Limit.STAGE_GAP)
        .about(
            "/stages/*/startsOn or /stages",
            "Bundle.entry.resource.ofType(CarePlan).where(partOf.exists()).period.start")
        .remedy("Move the start of the stage, or put the stages in order.")
        .samples(
            Sample.failing("/stages/1/startsOn", "{\"/stages/1/startsOn\": \"2026-12-09\"}"),
            Sample.passing("{\"/stages/1/startsOn\": \"2026-12-08\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    List<Reckoned<StageDates>> dates = StageDates.of(about.treatment());
    for (int i = 1; i < dates.size(); i++) {
      StageDates before = dates.get(i - 1).result().orElse(null);
      StageDates after = dates.get(i).result().orElse(null);
      if (before != null && after != null) {
        follow(about, i, before, after, found);
      }
    }
    kinds(about.treatment(), found);
  }

  private static void follow(
      Case about, int index, StageDates before, StageDates after, Findings found) {
    long gap = ChronoUnit.DAYS.between(before.end(), after.start());
    if (gap < 0 || BigDecimal.valueOf(gap).compareTo(about.limits().of(Limit.STAGE_GAP)) > 0) {
      found
          .error(Pointer.of("stages", index, "startsOn"), after.stage().id())
          .value("gapDays", gap)
          .limit(Limit.STAGE_GAP)
          .says(
              gap < 0
                  ? "The stage starts on %s, before the one before it ends (%s): days of overlap %d."
                      .formatted(after.start(), before.end(), -gap)
                  : "The stage starts on %s, after the one before it ended (%s): days between %d."
                      .formatted(after.start(), before.end(), gap));
    }
  }

  private static void kinds(Treatment treatment, Findings found) {
    String kinds =
        treatment.stages().stream()
            .map(stage -> letter(stage.kind()))
            .collect(Collectors.joining());
    if (kinds.isEmpty() || ORDER.matcher(kinds).matches()) {
      return;
    }
    String list =
        treatment.stages().stream()
            .map(stage -> stage.kind().code())
            .collect(Collectors.joining(", "));
    Findings.Draft draft =
        found
            .error(Pointer.of("stages"), treatment.id())
            .value(list)
            .limit("active, support, fixed, retention");
    for (int i = 0; i < kinds.length(); i++) {
      draft.keeping("stage" + (i + 1), "ASFR".indexOf(kinds.charAt(i)) + 1L);
    }
    draft.says(
        "The stages run %s; they should be active, then support and fixed if any, then retention."
            .formatted(list));
  }

  private static String letter(StageKind kind) {
    return kind.code().substring(0, 1).toUpperCase(Locale.ROOT);
  }
}
