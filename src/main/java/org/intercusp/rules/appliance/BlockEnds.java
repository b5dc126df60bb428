package org.intercusp.rules.appliance;

import java.util.List;
import java.util.stream.Stream;
import org.intercusp.dentition.Tooth;
import org.intercusp.treatment.Appliance.Block;

/**
 * The two teeth a block reaches to. Which of them lies in front is seen from the teeth: a file may
 * name them the wrong way round.
 */
record BlockEnds(Block block) {

  /** A tooth and the member that names it. */
  record End(String member, Tooth tooth) {}

  private End mesial() {
    return new End("mesialTooth", block.mesialTooth());
  }

  private End distal() {
    return new End("distalTooth", block.distalTooth());
  }

  End furthestBack() {
    return turned() ? mesial() : distal();
  }

  End furthestForward() {
    return turned() ? distal() : mesial();
  }

  /** Whether the mesial tooth lies behind the distal one. */
  boolean turned() {
    return block.mesialTooth().position() > block.distalTooth().position();
  }

  /** The teeth named that are of another arch or side. */
  List<End> elsewhere() {
    return Stream.of(mesial(), distal())
        .filter(end -> end.tooth().arch() != block.arch() || end.tooth().side() != block.side())
        .toList();
  }
}
