package org.intercusp.rules.stage;

import java.util.List;
import org.intercusp.analysis.progress.Expected;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.StageKind;

/** Wear is prescribed as each stage wants it. */
final class StageWear implements Rule {

  static final String CODE = "stage-wear";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING, Severity.INFORMATION)
        .compares("the prescribed hours a day with what the kind of stage wants")
        .limit(
            "active and support at least 12 h/d (active from 12 to 20 h/d is noted as less than"
                + " full time), retention at most 12 h/d",
            Limit.WEAR_LEAST,
            Limit.WEAR_FULL_TIME,
            Limit.WEAR_RETENTION_MOST)
        .about(
            "/stages/*/wearHours",
            "Bundle.entry.resource.ofType(CarePlan).where(partOf.exists()).activity")
        .remedy(
            "Active and support: full time but for contact sport, swimming and cleaning. Retention:"
                + " nights only.")
        .samples(
            Sample.failing("/stages/0/wearHours", "{\"/stages/0/wearHours\": 11.5}"),
            Sample.passing("{\"/stages/0/wearHours\": 20.5}"));
  }

  @Override
  public void check(Case about, Findings found) {
    List<Stage> stages = about.treatment().stages();
    for (int i = 0; i < stages.size(); i++) {
      HoursPerDay wear = stages.get(i).wearHours();
      if (wear != null) {
        wear(about, i, stages.get(i), wear, found);
      }
    }
  }

  private static void wear(Case about, int index, Stage stage, HoursPerDay wear, Findings found) {
    boolean active = stage.kind() == StageKind.ACTIVE;
    boolean worn = active || stage.kind() == StageKind.SUPPORT;
    Pointer at = Pointer.of("stages", index, "wearHours");
    if (worn && wear.isBelow(about.limits().hours(Limit.WEAR_LEAST))) {
      says(found.warning(at, stage.id()), stage, wear, Limit.WEAR_LEAST, "less than is usual");
    } else if (active && !wear.isAbove(about.limits().hours(Limit.WEAR_FULL_TIME))) {
      says(
          found.information(at, stage.id()),
          stage,
          wear,
          Limit.WEAR_FULL_TIME,
          "less than full time; one trial found no less reduction at 12 h than at 22 h prescribed ("
              + Expected.SOURCE.citation()
              + ")");
    } else if (stage.kind() == StageKind.RETENTION
        && wear.isAbove(about.limits().hours(Limit.WEAR_RETENTION_MOST))) {
      says(
          found.warning(at, stage.id()),
          stage,
          wear,
          Limit.WEAR_RETENTION_MOST,
          "more than the nights that retention wants");
    }
  }

  private static void says(
      Findings.Draft draft, Stage stage, HoursPerDay wear, Limit limit, String how) {
    draft.value("wearHours", wear).limit(limit);
    if (limit == Limit.WEAR_FULL_TIME) {
      draft.notingChange(Limit.WEAR_LEAST);
    }
    draft
        .says(
            "%s h a day are prescribed in the %s stage, %s."
                .formatted(Shown.of(wear.value()), stage.kind().code(), how));
  }
}
