package org.intercusp.measure;

/** A unit of measure the trade writes, with its UCUM code (Unified Code for Units of Measure). */
public enum Unit {
  MILLIMETRE("mm", "mm"),
  DEGREE("deg", "°"),
  /** A pure ratio; UCUM writes it as the number one. */
  SHARE("1", ""),
  PERCENT("%", "%"),
  HOURS_PER_DAY("h/d", "h/day"),
  MILLIMETRE_PER_MONTH("mm/mo", "mm/month"),
  DAY("d", "days", "day"),
  WEEK("wk", "weeks", "week"),
  MONTH("mo", "months", "month"),
  YEAR("a", "years", "year"),
  SCORE("{score}", "points", "point"),
  COUNT("{count}", "");

  private final String ucum;
  private final String shown;
  private final String one;

  Unit(String ucum, String shown) {
    this(ucum, shown, shown);
  }

  Unit(String ucum, String shown, String one) {
    this.ucum = ucum;
    this.shown = shown;
    this.one = one;
  }

  /** The case-sensitive UCUM code. */
  public String ucum() {
    return ucum;
  }

  /** What stands behind a number on a page; empty for pure numbers. */
  public String shown() {
    return shown;
  }

  /** A whole number with this unit behind it. */
  public String behind(long number) {
    return behind(Long.toString(number));
  }

  /** A number with this unit behind it: a space between, as in SI, but before a degree sign. */
  public String behind(String number) {
    String unit = number.matches("-?1") ? one : shown;
    return unit.isEmpty() || this == DEGREE ? number + unit : number + " " + unit;
  }
}
