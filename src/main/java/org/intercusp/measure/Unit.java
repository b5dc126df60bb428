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
  DAY("d", "days"),
  WEEK("wk", "weeks"),
  MONTH("mo", "months"),
  YEAR("a", "years"),
  SCORE("{score}", "points"),
  COUNT("{count}", "");

  private final String ucum;
  private final String shown;

  Unit(String ucum, String shown) {
    this.ucum = ucum;
    this.shown = shown;
  }

  /** The case-sensitive UCUM code. */
  public String ucum() {
    return ucum;
  }

  /** What stands behind a number on a page; empty for pure numbers. */
  public String shown() {
    return shown;
  }

  /** A number with this unit behind it: a space between, as in SI, but before a degree sign. */
  public String behind(String number) {
    return shown.isEmpty() || this == DEGREE ? number + shown : number + " " + shown;
  }
}
