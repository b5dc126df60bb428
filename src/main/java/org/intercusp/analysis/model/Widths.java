package org.intercusp.analysis.model;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.intercusp.analysis.Reckoned;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.intercusp.treatment.StudyModel;

/** Sums of tooth widths, in millimetres. */
final class Widths {

  private Widths() {}

  /** Permanent teeth of an arch from the midline out to a position, both sides. */
  static List<Tooth> teeth(Arch arch, int from, int to) {
    List<Tooth> teeth = new ArrayList<>();
    for (int quadrant : arch == Arch.UPPER ? new int[] {1, 2} : new int[] {4, 3}) {
      for (int position = from; position <= to; position++) {
        teeth.add(new Tooth("" + quadrant + position));
      }
    }
    return teeth;
  }

  static Reckoned<Length> sum(StudyModel model, List<Tooth> teeth) {
    String missing =
        teeth.stream()
            .filter(tooth -> !model.toothWidths().containsKey(tooth))
            .map(Tooth::code)
            .collect(Collectors.joining(", "));
    if (!missing.isEmpty()) {
      return Reckoned.lacking("width missing: " + missing);
    }
    Length sum = Length.ZERO;
    for (Tooth tooth : teeth) {
      sum = sum.plus(model.toothWidths().getOrDefault(tooth, Length.ZERO));
    }
    return Reckoned.known(sum);
  }
}
