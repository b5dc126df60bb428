package org.intercusp.analysis.film;

import java.util.Optional;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;

/**
 * What is measured on a lateral film. Signs, stated once: x is forward and y up, the patient looks
 * towards positive x.
 *
 * <ul>
 *   <li>SNA, SNB: the turn at N from S down to A or B. ANB: SNA less SNB, positive when A lies in
 *       front of B.
 *   <li>SN-Mx, SN-MP, MMPA: positive when the second line falls away forward from the first.
 *   <li>U1-Mx, L1-Md, interincisal: the angle on the side of the molars, so proclined incisors have
 *       larger U1-Mx and L1-Md and a smaller interincisal angle; with MMPA the three close to 360.
 *   <li>Wits: from B to A along the functional occlusal plane, positive when A is in front.
 *   <li>Face heights: perpendicular to the maxillary plane, N above and Me below it positive.
 * </ul>
 *
 * <p>Angles and ratios are taken as drawn; magnification is divided out of lengths alone, and a
 * length of a film without magnification is withheld.
 */
public enum Measurement {
  SNA("sna", Unit.DEGREE),
  SNB("snb", Unit.DEGREE),
  ANB("anb", Unit.DEGREE),
  SN_MX("sn-mx", Unit.DEGREE),
  SN_MP("sn-mp", Unit.DEGREE),
  MMPA("mmpa", Unit.DEGREE),
  U1_MX("u1-mx", Unit.DEGREE),
  L1_MD("l1-md", Unit.DEGREE),
  INTERINCISAL("interincisal", Unit.DEGREE),
  /** Am J Orthod 1975;67:125-138, from memory: drawn perpendicular to the functional plane. */
  WITS("wits", Unit.MILLIMETRE),
  UPPER_FACE_HEIGHT("upper-anterior-face-height", Unit.MILLIMETRE),
  LOWER_FACE_HEIGHT("lower-anterior-face-height", Unit.MILLIMETRE),
  /** Lower anterior face height as a percentage of upper and lower together. */
  LAFH_PERCENT("lafh-percent", Unit.PERCENT),
  /** Posterior face height S-Go as a percentage of anterior N-Me. */
  JARABAK_RATIO("jarabak-ratio", Unit.PERCENT),
  CO_GN("co-gn", Unit.MILLIMETRE),
  CO_A("co-a", Unit.MILLIMETRE);

  private final String code;
  private final Unit unit;

  Measurement(String code, Unit unit) {
    this.code = code;
    this.unit = unit;
  }

  /** Stable kebab-case name. */
  public String code() {
    return code;
  }

  public Unit unit() {
    return unit;
  }

  /** The usual mean and deviation, from memory of the Eastman norms; empty where none is in use. */
  public Optional<Norm> norm() {
    return switch (this) {
      case SNA -> Optional.of(Norm.of(81, 3));
      case SNB -> Optional.of(Norm.of(78, 3));
      case ANB -> Optional.of(Norm.of(3, 2));
      case SN_MX -> Optional.of(Norm.of(8, 3));
      case MMPA -> Optional.of(Norm.of(27, 4));
      case U1_MX -> Optional.of(Norm.of(109, 6));
      case L1_MD -> Optional.of(Norm.of(93, 6));
      case INTERINCISAL -> Optional.of(Norm.of(135, 10));
      case LAFH_PERCENT -> Optional.of(Norm.of(55, 2));
      case SN_MP, WITS, UPPER_FACE_HEIGHT, LOWER_FACE_HEIGHT, JARABAK_RATIO, CO_GN, CO_A ->
          Optional.empty();
    };
  }

  /** Where the norm comes from; common practice for how a measurement without norm is drawn. */
  public Source source() {
    return norm().isPresent() ? Norm.SOURCE : Source.COMMON_PRACTICE;
  }
}
