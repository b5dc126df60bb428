package org.intercusp.summary.drawing;

import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.trim.Trimmed;
import org.intercusp.dentition.Arch;
import org.intercusp.finding.Figure;
import org.intercusp.measure.Angle;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * What the drawing of two bite blocks needs. Lengths in mm; heights are those of upper and lower
 * block together.
 *
 * @param premolar height at the first premolars
 * @param molar height at the first molars
 * @param origin where the heights come from, in words
 * @param upperMesial position from the midline of the tooth in front of the upper block
 * @param lowerDistal position from the midline of the tooth behind the lower block
 * @param overjet in the bite, which says how far the lower teeth stand back
 * @param next what is trimmed at the next visit
 */
public record BlockView(
    String id,
    double premolar,
    double molar,
    String origin,
    @Nullable Angle incline,
    int upperMesial,
    int upperDistal,
    int lowerMesial,
    int lowerDistal,
    double overjet,
    @Nullable NextTrim next) {

  private record Heights(double premolar, double molar, String origin) {}

  /**
   * The blocks as they are made. Empty where the appliance has no blocks on both arches, or no
   * height is known of them.
   *
   * @param figures of the treatment: heights that were neither prescribed nor registered are the
   *     predicted gaps among them
   */
  public static Optional<BlockView> of(
      Treatment treatment, Appliance appliance, List<Figure> figures) {
    Optional<Appliance.Block> upper = Blocks.first(appliance, Arch.UPPER);
    Optional<Appliance.Block> lower = Blocks.first(appliance, Arch.LOWER);
    if (upper.isEmpty() || lower.isEmpty()) {
      return Optional.empty();
    }
    Appliance.Block above = upper.orElseThrow();
    Appliance.Block below = lower.orElseThrow();
    return heights(treatment, appliance, figures)
        .map(
            heights ->
                new BlockView(
                    appliance.id(),
                    heights.premolar(),
                    heights.molar(),
                    heights.origin(),
                    appliance.inclineAngle(),
                    above.mesialTooth().position(),
                    above.distalTooth().position(),
                    below.mesialTooth().position(),
                    below.distalTooth().position(),
                    Trimmed.bite(treatment, appliance)
                        .map(bite -> bite.overjetInBite().asDouble())
                        .orElse(0.0),
                    null));
  }

  private static Optional<Heights> heights(
      Treatment treatment, Appliance appliance, List<Figure> figures) {
    Appliance.BlockHeights prescribed = appliance.blockHeights();
    if (prescribed != null) {
      return Optional.of(
          new Heights(
              prescribed.premolar().asDouble(), prescribed.molar().asDouble(), "as prescribed"));
    }
    return Trimmed.bite(treatment, appliance).flatMap(bite -> heights(bite, figures));
  }

  private static Optional<Heights> heights(Bite bite, List<Figure> figures) {
    if (bite.premolarClearance() != null && bite.molarClearance() != null) {
      return Optional.of(
          new Heights(
              bite.premolarClearance().asDouble(),
              bite.molarClearance().asDouble(),
              "as registered"));
    }
    return PredictedGap.firstPremolar(bite, figures)
        .flatMap(
            premolar ->
                PredictedGap.firstMolar(bite, figures)
                    .map(molar -> new Heights(premolar, molar, "computed")));
  }

  /** The same with what is to be trimmed. */
  public BlockView trimmed(NextTrim due) {
    return new BlockView(
        id,
        premolar,
        molar,
        origin,
        incline,
        upperMesial,
        upperDistal,
        lowerMesial,
        lowerDistal,
        overjet,
        due);
  }
}
