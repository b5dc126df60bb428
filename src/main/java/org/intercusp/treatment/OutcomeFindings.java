package org.intercusp.treatment;

import java.util.List;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;

/**
 * Occlusal findings from which the indices are computed.
 *
 * @param overbiteCover share of the lower incisor crown, 0 to 2
 * @param centreline displacement as a share of a lower incisor's width, 0 to 2
 * @param worstDisplacement largest contact displacement in the mouth
 * @param crossbite cusp to cusp or worse
 * @param crossbiteShift discrepancy between retruded and habitual position
 * @param missingTeeth absent from birth; erupted or not is for the other lists
 */
public record OutcomeFindings(
    Length overjet,
    int teethEdgeToEdge,
    int teethInAnteriorCrossbite,
    Length overbite,
    Share overbiteCover,
    OverbiteContact overbiteContact,
    Length lateralOpenBite,
    Share centreline,
    Contacts contacts,
    Length worstDisplacement,
    BuccalSides buccal,
    boolean crossbite,
    Length crossbiteShift,
    boolean lingualCrossbiteNoContact,
    Lips lips,
    boolean masticatoryDifficulty,
    boolean speechDifficulty,
    List<Tooth> missingTeeth,
    List<Tooth> impededTeeth,
    List<Tooth> tippedTeeth,
    List<Tooth> submergedTeeth,
    boolean supernumerary,
    boolean cleft,
    int aestheticComponent,
    Length upperCrowding,
    Length upperSpacing) {

  public OutcomeFindings {
    missingTeeth = List.copyOf(missingTeeth);
    impededTeeth = List.copyOf(impededTeeth);
    tippedTeeth = List.copyOf(tippedTeeth);
    submergedTeeth = List.copyOf(submergedTeeth);
  }

  /** What the lower incisors meet in overbite. */
  public enum OverbiteContact implements Coded {
    NONE("none"),
    TOOTH("tooth"),
    TISSUE("tissue"),
    TRAUMA("trauma");

    private final String code;

    OverbiteContact(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }

  /** The buccal segments of both sides. */
  public record BuccalSides(Buccal right, Buccal left) {}

  /**
   * One buccal segment.
   *
   * @param open whether two teeth or more stand open by more than 2 mm
   */
  public record Buccal(AnteroPosterior anteroposterior, boolean open, Transverse transverse) {

    /** Interdigitation from front to back. */
    public enum AnteroPosterior implements Coded {
      FULL("full"),
      UNDER_HALF("under-half"),
      HALF("half");

      private final String code;

      AnteroPosterior(String code) {
        this.code = code;
      }

      @Override
      public String code() {
        return code;
      }
    }

    /** Crossbite of the segment. */
    public enum Transverse implements Coded {
      NONE("none"),
      TENDENCY("tendency"),
      ONE("one"),
      SEVERAL("several"),
      SCISSOR_SEVERAL("scissor-several");

      private final String code;

      Transverse(String code) {
        this.code = code;
      }

      @Override
      public String code() {
        return code;
      }
    }
  }
}
