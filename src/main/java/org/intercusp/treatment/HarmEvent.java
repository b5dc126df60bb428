package org.intercusp.treatment;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * An adverse event seen or told at a review.
 *
 * @param suspectedAppliance whether an appliance is suspected of it
 */
public record HarmEvent(
    Code code,
    Grade severity,
    boolean serious,
    boolean suspectedAppliance,
    LocalDate onsetOn,
    @Nullable String action) {

  /** What happened. */
  public enum Code implements Coded {
    CARIES("caries"),
    WHITE_SPOT("white-spot"),
    GINGIVITIS("gingivitis"),
    ULCER("ulcer"),
    ALLERGY("allergy"),
    JOINT("joint"),
    INCISOR_TRAUMA("incisor-trauma"),
    ROOT_RESORPTION("root-resorption"),
    FRAGMENT_SWALLOWED("fragment-swallowed"),
    FRAGMENT_INHALED("fragment-inhaled"),
    OTHER("other");

    private final String code;

    Code(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }

  /** How bad it was. */
  public enum Grade implements Coded {
    MILD("mild"),
    MODERATE("moderate"),
    SEVERE("severe");

    private final String code;

    Grade(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }
}
