package org.intercusp.rules.appliance;

import java.math.BigDecimal;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.function.Function;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Appliance.Block;

/** The blocks of a twin block meet where they should, on both sides. */
final class ApplianceBlockExtent implements Rule {

  static final String CODE = "appliance-block-extent";
  private static final int SECOND_PREMOLAR = 5;
  private static final int MOST_APART = 1;

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares("the teeth at which the blocks of a twin block begin and end, on each side")
        .limit(
            "lower blocks end no further back than the second premolar (or second deciduous molar),"
                + " upper blocks begin no further forward; both on each side; upper beginning minus"
                + " lower end at most 1 tooth")
        .about("/appliances/*/blocks/** or /appliances/*/blocks", ApplianceAt.property("block"))
        .remedy("Redraw the blocks: they meet at the second premolars.")
        .samples(
            Sample.failing(
                "/appliances/0/blocks/2/distalTooth",
                "{\"/appliances/0/blocks/2/distalTooth\": \"46\"}"),
            Sample.passing(
                """
                {"/appliances/0/blocks/2/distalTooth": "44",
                 "/appliances/0/blocks/2/mesialTooth": "43"}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ApplianceAt at : ApplianceAt.all(about)) {
      if (at.twinBlock()) {
        extents(at, found);
        for (Side side : Side.values()) {
          side(at, side, found);
        }
      }
    }
  }

  private static void extents(ApplianceAt at, Findings found) {
    List<Block> blocks = at.appliance().blocks();
    for (int i = 0; i < blocks.size(); i++) {
      Block block = blocks.get(i);
      if (block.arch() == Arch.LOWER && block.distalTooth().position() > SECOND_PREMOLAR) {
        tooth(at, i, "distalTooth", block.distalTooth(), found)
            .says(
                "The lower block ends at %s, behind the second premolar."
                    .formatted(block.distalTooth()));
      }
      if (block.arch() == Arch.UPPER && block.mesialTooth().position() < SECOND_PREMOLAR) {
        tooth(at, i, "mesialTooth", block.mesialTooth(), found)
            .says(
                "The upper block begins at %s, in front of the second premolar."
                    .formatted(block.mesialTooth()));
      }
    }
  }

  private static Findings.Draft tooth(
      ApplianceAt at, int block, String member, Tooth tooth, Findings found) {
    return found
        .error(at.at("blocks", block, member), at.id())
        .value(tooth.code())
        .limit("second premolar")
        .keeping("tooth", Integer.parseInt(tooth.code()));
  }

  private static void side(ApplianceAt at, Side side, Findings found) {
    IntSummaryStatistics upper = positions(at, Arch.UPPER, side, Block::mesialTooth);
    IntSummaryStatistics lower = positions(at, Arch.LOWER, side, Block::distalTooth);
    if (upper.getCount() == 0 || lower.getCount() == 0) {
      String missing = upper.getCount() == 0 ? "upper" : "lower";
      found
          .error(at.at("blocks"), at.id())
          .value("no " + missing + " block")
          .limit("an upper and a lower block on each side")
          .keeping(side.code() + "UpperBlocks", upper.getCount())
          .keeping(side.code() + "LowerBlocks", lower.getCount())
          .says("There is no %s block on the %s side.".formatted(missing, side.code()));
    } else if (upper.getMin() - lower.getMax() > MOST_APART) {
      found
          .error(at.at("blocks"), at.id())
          .value(side.code() + "TeethApart", upper.getMin() - (long) lower.getMax())
          .unit(Unit.COUNT)
          .limit(BigDecimal.valueOf(MOST_APART))
          .says(
              "On the %s side the lower block ends at position %d and the upper begins at %d: the"
                      .formatted(side.code(), lower.getMax(), upper.getMin())
                  + " inclines can't meet.");
    }
  }

  private static IntSummaryStatistics positions(
      ApplianceAt at, Arch arch, Side side, Function<Block, Tooth> end) {
    return at.appliance().blocks().stream()
        .filter(block -> block.arch() == arch && block.side() == side)
        .map(end)
        .mapToInt(Tooth::position)
        .summaryStatistics();
  }
}
