package org.intercusp.rules.appliance;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Appliance.Block;

/** Notes a block that lies over a space with no tooth in it. */
final class ApplianceBlockTooth implements Rule {

  static final String CODE = "appliance-block-tooth";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION)
        .compares("the positions under a block with the teeth present, deciduous ones included")
        .limit("a tooth at each position under a block (a count of spaces: 0)")
        .about("/appliances/*/blocks/*", ApplianceAt.property("block"))
        .remedy("Tell the laboratory what lies under the block there.")
        .samples(
            Sample.failing("/appliances/0/blocks/3", "{\"/diagnosis/teethPresent/16\": null}"),
            Sample.passing(
                """
                {"/diagnosis/teethPresent/16": "75"}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ApplianceAt at : ApplianceAt.standing(about)) {
      List<Block> blocks = at.appliance().blocks();
      for (int i = 0; i < blocks.size(); i++) {
        List<Integer> spaces = spaces(blocks.get(i), about.teethFor(at.appliance()));
        if (!spaces.isEmpty()) {
          found
              .information(at.at("blocks", i), at.id())
              .value("spaces", spaces.size())
              .unit(Unit.COUNT)
              .limit(BigDecimal.ZERO)
              .says(
                  "The %s %s block lies over a space with no tooth, at position %s."
                      .formatted(
                          blocks.get(i).arch().code(),
                          blocks.get(i).side().code(),
                          spaces.stream().map(String::valueOf).collect(Collectors.joining(", "))));
        }
      }
    }
  }

  private static List<Integer> spaces(Block block, List<Tooth> present) {
    int a = block.mesialTooth().position();
    int b = block.distalTooth().position();
    return IntStream.rangeClosed(Math.min(a, b), Math.max(a, b))
        .filter(
            position ->
                present.stream()
                    .noneMatch(
                        tooth ->
                            tooth.arch() == block.arch()
                                && tooth.side() == block.side()
                                && tooth.position() == position))
        .boxed()
        .toList();
  }
}
