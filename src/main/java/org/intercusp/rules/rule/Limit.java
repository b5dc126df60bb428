package org.intercusp.rules.rule;

import java.math.BigDecimal;
import java.util.Locale;
import org.intercusp.measure.Unit;

/**
 * A limit of common practice that a clinic may set for itself, inside safe bounds, and what is
 * assumed of a jaw where nothing was measured. None of these has a published source; limits that
 * have one are constants of their rules and can't be set.
 */
public enum Limit {
  SHARE_OF_PATH("0.70", "0.50", "0.80", Unit.SHARE),
  BITE_OVERJET_TOLERANCE("1", "0.5", "2", Unit.MILLIMETRE),
  BITE_STEP("10", "5", "12", Unit.MILLIMETRE),
  FIRST_STEP("5", "3", "6", Unit.MILLIMETRE),
  PATH_SHORTEST("6", "4", "8", Unit.MILLIMETRE),
  PATH_LONGEST("18", "14", "20", Unit.MILLIMETRE),
  PREMOLAR_CLEARANCE_LEAST("4", "3", "6", Unit.MILLIMETRE),
  REST_SPACE_MARGIN("1", "0.5", "3", Unit.MILLIMETRE),
  PREMOLAR_CLEARANCE_MOST("8", "6", "10", Unit.MILLIMETRE),
  INCISAL_CLEARANCE_MOST("4", "3", "6", Unit.MILLIMETRE),
  INCISAL_CLEARANCE_FROM_OVERBITE("2", "1", "4", Unit.MILLIMETRE),
  HEIGHT_ADULT_LOW("17", "16", "18", Unit.MILLIMETRE),
  HEIGHT_ADULT_HIGH("19", "18", "20", Unit.MILLIMETRE),
  HEIGHT_CHILD_LOW("15", "14", "16", Unit.MILLIMETRE),
  HEIGHT_CHILD_HIGH("17", "16", "18", Unit.MILLIMETRE),
  ADULT_FROM("18", "16", "21", Unit.YEAR),
  MIDLINE_SHIFT("1", "0.5", "2", Unit.MILLIMETRE),
  BITE_AGE("42", "14", "90", Unit.DAY),
  INCLINE_LEAST("45", "40", "50", Unit.DEGREE),
  INCLINE_MOST("90", "80", "90", Unit.DEGREE),
  INCLINE_USUAL_LOW("65", "60", "70", Unit.DEGREE),
  INCLINE_USUAL_HIGH("75", "70", "80", Unit.DEGREE),
  BLOCK_FROM_REGISTERED("1.5", "0.5", "2.5", Unit.MILLIMETRE),
  BLOCK_FROM_PREDICTED("2", "1", "3", Unit.MILLIMETRE),
  CLASPS_AN_ARCH("2", "1", "4", Unit.COUNT),
  CLASP_WIRE_LEAST("0.6", "0.5", "0.7", Unit.MILLIMETRE),
  CLASP_WIRE_MOST("0.8", "0.7", "0.9", Unit.MILLIMETRE),
  BOW_WIRE_LEAST("0.7", "0.6", "0.8", Unit.MILLIMETRE),
  BOW_WIRE_MOST("0.9", "0.8", "1.0", Unit.MILLIMETRE),
  SHEDDING_NOTICE("1", "0.5", "2", Unit.YEAR),
  STAGE_GAP("14", "0", "42", Unit.DAY),
  ACTIVE_SHORTEST("6", "4", "9", Unit.MONTH),
  ACTIVE_LONGEST("12", "9", "18", Unit.MONTH),
  SUPPORT_SHORTEST("3", "2", "4", Unit.MONTH),
  SUPPORT_LONGEST("6", "4", "9", Unit.MONTH),
  RETENTION_SHORTEST("9", "6", "24", Unit.MONTH),
  WEAR_LEAST("12", "10", "20", Unit.HOURS_PER_DAY),
  WEAR_FULL_TIME("20", "16", "23", Unit.HOURS_PER_DAY),
  WEAR_RETENTION_MOST("12", "8", "14", Unit.HOURS_PER_DAY),
  TRIM_OVERBITE("1", "0.5", "2", Unit.MILLIMETRE),
  REVIEW_GRACE("14", "7", "28", Unit.DAY),
  SLOW_AFTER("12", "8", "26", Unit.WEEK),
  SLOW_RATE("0.27", "0.10", "0.54", Unit.MILLIMETRE_PER_MONTH),
  WEAR_DOUBT_BELOW("8", "6", "12", Unit.HOURS_PER_DAY),
  WEAR_DOUBT_AFTER("8", "6", "12", Unit.WEEK),
  WEAR_DOUBT_CHANGE("1", "0.5", "2", Unit.MILLIMETRE),
  DUAL_BITE("2", "1", "3", Unit.MILLIMETRE),
  OPENING_LEAST("35", "30", "40", Unit.MILLIMETRE),
  INCISOR_PROCLINATION("5", "2", "8", Unit.DEGREE),
  BREAKAGES("2", "1", "5", Unit.COUNT),
  RELAPSE("1", "0.5", "2", Unit.MILLIMETRE),
  JAW_BALKWILL_ANGLE("26", "20", "32", Unit.DEGREE),
  JAW_CHILD_SIDE("88", "78", "98", Unit.MILLIMETRE),
  JAW_CHILD_PATH("20", "5", "40", Unit.DEGREE),
  JAW_CHILD_FIRST_PREMOLAR("14", "11", "17", Unit.MILLIMETRE),
  JAW_CHILD_SECOND_PREMOLAR("22", "18", "25", Unit.MILLIMETRE),
  JAW_CHILD_MOLAR("31", "26", "36", Unit.MILLIMETRE),
  JAW_ADULT_SIDE("100", "90", "110", Unit.MILLIMETRE),
  JAW_ADULT_PATH("25", "5", "45", Unit.DEGREE),
  JAW_ADULT_FIRST_PREMOLAR("14", "11", "17", Unit.MILLIMETRE),
  JAW_ADULT_SECOND_PREMOLAR("21", "18", "25", Unit.MILLIMETRE),
  JAW_ADULT_MOLAR("30", "26", "36", Unit.MILLIMETRE);

  private final BigDecimal usual;
  private final BigDecimal lowest;
  private final BigDecimal highest;
  private final Unit unit;

  Limit(String usual, String lowest, String highest, Unit unit) {
    this.usual = new BigDecimal(usual);
    this.lowest = new BigDecimal(lowest);
    this.highest = new BigDecimal(highest);
    this.unit = unit;
  }

  /** The name a clinic's settings use: {@code share-of-path}. */
  public String code() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What it is unless a clinic sets it. */
  public BigDecimal usual() {
    return usual;
  }

  /** The lowest a clinic may set. */
  public BigDecimal lowest() {
    return lowest;
  }

  /** The highest a clinic may set. */
  public BigDecimal highest() {
    return highest;
  }

  public Unit unit() {
    return unit;
  }
}
