package org.intercusp.rules.appliance;

import org.intercusp.analysis.block.BlockGeometry;
import org.intercusp.analysis.block.BlockGeometry.Gaps;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Appliance.BlockHeights;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/** Blocks are as high as the bite is open, and higher than the freeway space. */
final class ApplianceBlockHeight implements Rule {

  static final String CODE = "appliance-block-height";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING, Severity.INFORMATION)
        .compares(
            "prescribed block heights with the clearances registered in the bite (predicted from the"
                + " jaw's movement where none is registered) and with the rest space")
        .limit(
            "within 1.5 mm of the registered, 2 mm of the predicted clearance; above the rest space",
            Limit.BLOCK_FROM_REGISTERED,
            Limit.BLOCK_FROM_PREDICTED,
            Limit.JAW_BALKWILL_ANGLE,
            Limit.JAW_CHILD_SIDE,
            Limit.JAW_CHILD_PATH,
            Limit.JAW_CHILD_FIRST_PREMOLAR,
            Limit.JAW_CHILD_SECOND_PREMOLAR,
            Limit.JAW_CHILD_MOLAR,
            Limit.JAW_ADULT_SIDE,
            Limit.JAW_ADULT_PATH,
            Limit.JAW_ADULT_FIRST_PREMOLAR,
            Limit.JAW_ADULT_SECOND_PREMOLAR,
            Limit.JAW_ADULT_MOLAR)
        .about("/appliances/*/blockHeights/*", ApplianceAt.parameter("block-height-premolar"))
        .remedy("Prescribe the height that was registered, or register the bite again.")
        .samples(
            Sample.failing(
                "/appliances/0/blockHeights/molar", "{\"/appliances/0/blockHeights/molar\": 6.6}"),
            Sample.passing("{\"/appliances/0/blockHeights/molar\": 6.5}"));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ApplianceAt at : ApplianceAt.standing(about)) {
      BlockHeights heights = at.appliance().blockHeights();
      Bite bite = about.biteOf(at.appliance()).orElse(null);
      if (heights != null && bite != null) {
        Gaps gaps = predicted(about, bite);
        Length premolar = gaps == null ? null : gaps.firstPremolar();
        Length molar = gaps == null ? null : gaps.molar();
        Height front = new Height(at, "premolar", heights.premolar());
        Height back = new Height(at, "molar", heights.molar());
        front.check(about, bite.premolarClearance(), premolar, bite.restSpace(), found);
        back.check(about, bite.molarClearance(), molar, bite.restSpace(), found);
      }
    }
  }

  private static @Nullable Gaps predicted(Case about, Bite bite) {
    return BlockGeometry.predict(
            about.jaw(),
            bite.overjetHabitual(),
            bite.overjetInBite(),
            bite.overbiteHabitual(),
            bite.incisalClearance())
        .result()
        .map(BlockGeometry::gaps)
        .orElse(null);
  }

  private record Height(ApplianceAt at, String member, Length height) {

    private void check(
        Case about,
        @Nullable Length registered,
        @Nullable Length predicted,
        @Nullable Length rest,
        Findings found) {
      if (registered != null) {
        against(about, Severity.WARNING, registered, Limit.BLOCK_FROM_REGISTERED, found);
      } else if (predicted != null) {
        against(about, Severity.INFORMATION, predicted, Limit.BLOCK_FROM_PREDICTED, found);
      }
      if (rest != null && !height.isAbove(rest)) {
        found
            .warning(at.at("blockHeights", member), at.id())
            .value(member + "Height", height)
            .limit(rest)
            .borderlineWithin(rest.minus(height).asDouble(), about.u())
            .says(
                "The %s blocks are %s high, not above the rest space of %s."
                    .formatted(member, Shown.of(height), Shown.of(rest)));
      }
    }

    private void against(
        Case about, Severity severity, Length clearance, Limit limit, Findings found) {
      Length off = height.minus(clearance).absolute();
      if (off.isAbove(about.limits().length(limit))) {
        found
            .report(severity, at.at("blockHeights", member), at.id())
            .value(member + "Difference", height.minus(clearance))
            .limit(limit)
            .borderlineWithin(off.minus(about.limits().length(limit)).asDouble(), about.u())
            .says(
                "The %s blocks are %s high; the %s clearance is %s."
                    .formatted(
                        member,
                        Shown.of(height),
                        severity == Severity.WARNING ? "registered" : "predicted",
                        Shown.of(clearance)));
      }
    }
  }
}
