package org.intercusp.rules.appliance;

import java.math.BigDecimal;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.stream.Stream;
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
                + " lower end at most 1 tooth; the teeth named are of the block's arch and side,"
                + " the mesial one not behind the distal one")
        .about(
            "/appliances/*/blocks/** or /appliances/*/blocks or /appliances/*",
            ApplianceAt.property("block"))
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
      BlockEnds ends = new BlockEnds(blocks.get(i));
      named(at, i, ends, found);
      BlockEnds.End furthest = ends.furthestBack();
      if (ends.block().arch() == Arch.LOWER && furthest.tooth().position() > SECOND_PREMOLAR) {
        tooth(at, i, furthest, found)
            .says(
                "The lower block ends at %s, behind the second premolar."
                    .formatted(furthest.tooth()));
      }
      BlockEnds.End first = ends.furthestForward();
      if (ends.block().arch() == Arch.UPPER && first.tooth().position() < SECOND_PREMOLAR) {
        tooth(at, i, first, found)
            .says(
                "The upper block begins at %s, in front of the second premolar."
                    .formatted(first.tooth()));
      }
    }
  }

  /** A block drawn at other teeth than it is said to stand on can't be made. */
  private static void named(ApplianceAt at, int index, BlockEnds ends, Findings found) {
    Block block = ends.block();
    String where = block.arch().code() + " " + block.side().code();
    for (BlockEnds.End end : ends.elsewhere()) {
      tooth(at, index, end, found)
          .limit("a tooth of the " + where)
          .keeping("block", index + 1L)
          .says("The %s block names %s, a tooth of another place.".formatted(where, end.tooth()));
    }
    if (ends.turned()) {
      found
          .error(at.at("blocks", index, "mesialTooth"), at.id())
          .value(block.mesialTooth().code())
          .limit("not behind " + block.distalTooth())
          .keeping("mesialTooth", Integer.parseInt(block.mesialTooth().code()))
          .keeping("distalTooth", Integer.parseInt(block.distalTooth().code()))
          .says(
              "The %s block begins at %s, behind %s where it ends."
                  .formatted(where, block.mesialTooth(), block.distalTooth()));
    }
  }

  private static Findings.Draft tooth(
      ApplianceAt at, int block, BlockEnds.End end, Findings found) {
    return found
        .error(at.at("blocks", block, end.member()), at.id())
        .value(end.tooth().code())
        .limit("second premolar")
        .keeping("tooth", Integer.parseInt(end.tooth().code()));
  }

  private static void side(ApplianceAt at, Side side, Findings found) {
    IntSummaryStatistics upper = positions(at, Arch.UPPER, side);
    IntSummaryStatistics lower = positions(at, Arch.LOWER, side);
    if (upper.getCount() == 0 || lower.getCount() == 0) {
      String missing =
          upper.getCount() == lower.getCount()
              ? "upper or lower"
              : upper.getCount() == 0 ? "upper" : "lower";
      found
          .error(at.appliance().blocks().isEmpty() ? at.at() : at.at("blocks"), at.id())
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

  private static IntSummaryStatistics positions(ApplianceAt at, Arch arch, Side side) {
    return at.appliance().blocks().stream()
        .filter(block -> block.arch() == arch && block.side() == side)
        .flatMap(block -> Stream.of(block.mesialTooth(), block.distalTooth()))
        .mapToInt(Tooth::position)
        .summaryStatistics();
  }
}
