package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Angle;
import org.intercusp.measure.Length;
import org.jspecify.annotations.Nullable;

/**
 * A removable appliance as prescribed.
 *
 * @param biteId the bite it is built to; a twin block always has one
 * @param teethPresent only where they changed since the diagnosis
 * @param inclineAngle of the bite planes to the occlusal plane
 * @param material of the plates
 */
public record Appliance(
    String id,
    ApplianceType type,
    @Nullable String biteId,
    LocalDate orderedOn,
    @Nullable LocalDate fittedOn,
    @Nullable List<Tooth> teethPresent,
    @Nullable Angle inclineAngle,
    @Nullable BlockHeights blockHeights,
    List<Block> blocks,
    List<Clasp> clasps,
    @Nullable LabialBow labialBow,
    boolean incisalCapping,
    @Nullable Screw screw,
    String material,
    @Nullable String alloy,
    @Nullable String batch,
    @Nullable LabOrder lab,
    @Nullable String statement) {

  public Appliance {
    teethPresent = teethPresent == null ? null : List.copyOf(teethPresent);
    blocks = List.copyOf(blocks);
    clasps = List.copyOf(clasps);
  }

  /** Heights of the upper and lower block together. */
  public record BlockHeights(Length premolar, Length molar) {}

  /** One bite block, from its mesial to its distal tooth. */
  public record Block(Arch arch, Side side, Tooth mesialTooth, Tooth distalTooth) {}

  /** A clasp on a tooth; wire is the diameter. */
  public record Clasp(Tooth tooth, Kind kind, Length wire) {

    /** Kind of clasp. */
    public enum Kind implements Coded {
      ADAMS("adams"),
      DELTA("delta"),
      BALL_ENDED("ball-ended");

      private final String code;

      Kind(String code) {
        this.code = code;
      }

      @Override
      public String code() {
        return code;
      }
    }
  }

  /** A labial bow; wire is the diameter. */
  public record LabialBow(Arch arch, Length wire) {}

  /** An expansion screw; {@code turn} is what a quarter turn opens. */
  public record Screw(Arch arch, Length turn, int plannedTurns, int daysPerTurn) {}

  /**
   * What the laboratory needs besides the design.
   *
   * @param remakeOf id of the appliance this one replaces
   */
  public record LabOrder(
      LocalDate requiredOn,
      Records records,
      boolean disinfected,
      @Nullable String colour,
      @Nullable String remakeOf,
      int retentionYears) {

    /** What the laboratory works from. */
    public enum Records implements Coded {
      IMPRESSIONS("impressions"),
      SCAN("scan");

      private final String code;

      Records(String code) {
        this.code = code;
      }

      @Override
      public String code() {
        return code;
      }
    }
  }
}
