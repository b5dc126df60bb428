package org.intercusp.summary.drawing;

import java.time.LocalDate;
import java.time.Period;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.block.BlockGeometry;
import org.intercusp.analysis.block.JawShape;
import org.intercusp.dentition.Arch;
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

  /** From 18 years a jaw is drawn as an adult's: common practice, no source. */
  private static final int ADULT_FROM = 18;

  private record Heights(double premolar, double molar, String origin) {}

  /** Empty where the appliance has no blocks on both arches, or no height is known of them. */
  public static Optional<BlockView> of(Treatment treatment, Appliance appliance, LocalDate on) {
    Optional<Appliance.Block> upper = Blocks.first(appliance, Arch.UPPER);
    Optional<Appliance.Block> lower = Blocks.first(appliance, Arch.LOWER);
    if (upper.isEmpty() || lower.isEmpty()) {
      return Optional.empty();
    }
    Appliance.Block above = upper.orElseThrow();
    Appliance.Block below = lower.orElseThrow();
    return heights(treatment, appliance)
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
                    NextTrim.bite(treatment, appliance)
                        .map(bite -> bite.overjetInBite().asDouble())
                        .orElse(0.0),
                    NextTrim.of(treatment, appliance, on).orElse(null)));
  }

  private static Optional<Heights> heights(Treatment treatment, Appliance appliance) {
    Appliance.BlockHeights prescribed = appliance.blockHeights();
    if (prescribed != null) {
      return Optional.of(
          new Heights(
              prescribed.premolar().asDouble(), prescribed.molar().asDouble(), "as prescribed"));
    }
    return NextTrim.bite(treatment, appliance).flatMap(bite -> heights(treatment, bite));
  }

  private static Optional<Heights> heights(Treatment treatment, Bite bite) {
    if (bite.premolarClearance() != null && bite.molarClearance() != null) {
      return Optional.of(
          new Heights(
              bite.premolarClearance().asDouble(),
              bite.molarClearance().asDouble(),
              "as registered"));
    }
    return predicted(treatment, bite)
        .result()
        .map(
            geometry ->
                new Heights(
                    geometry.gaps().firstPremolar().asDouble(),
                    geometry.gaps().molar().asDouble(),
                    "computed"));
  }

  private static Reckoned<BlockGeometry> predicted(Treatment treatment, Bite bite) {
    int age = Period.between(treatment.patient().birthDate(), bite.recordedOn()).getYears();
    return BlockGeometry.predict(
        JawShape.of(age >= ADULT_FROM),
        bite.overjetHabitual(),
        bite.overjetInBite(),
        bite.overbiteHabitual(),
        bite.incisalClearance());
  }

  /** The blocks as they are made. */
  public BlockView withoutTrimming() {
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
        null);
  }
}
