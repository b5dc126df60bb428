package org.intercusp.analysis.bite;

import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Bite;

/**
 * Distance between the gingival margins of upper and lower incisors, in millimetres: in occlusion
 * crowns minus overbite, in the bite crowns plus incisal clearance. Common practice, no source.
 */
public record IntergingivalHeight(Length inOcclusion, Length inBite) {

  /** Computes from a bite as recorded. */
  public static IntergingivalHeight of(Bite bite) {
    return of(
        bite.upperIncisorHeight().plus(bite.lowerIncisorHeight()),
        bite.overbiteHabitual(),
        bite.incisalClearance());
  }

  /** Computes from the crowns of both incisors together, overbite and clearance. */
  public static IntergingivalHeight of(Length crowns, Length overbite, Length clearance) {
    return new IntergingivalHeight(crowns.minus(overbite), crowns.plus(clearance));
  }

  /** Standard uncertainty: two crowns and one vertical reading. */
  public static double uncertainty(ReadingError error) {
    return error.standardUncertainty() * Math.sqrt(3);
  }

  /** The vertical dimension treatment should arrive at, both ends belonging to it. */
  public record Band(Length low, Length high) {

    public boolean holds(Length height) {
      return !height.isBelow(low) && !height.isAbove(high);
    }

    /** Millimetres above the band; zero within or below it. */
    public Length excess(Length height) {
      return height.isAbove(high) ? height.minus(high) : Length.ZERO;
    }
  }
}
