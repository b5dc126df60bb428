package org.intercusp.registry.report.form;

/** Units in words, for people. */
final class Units {

  private Units() {}

  /** What a UCUM unit of the report is called; nothing for a plain number. */
  static String shown(String ucum) {
    return switch (ucum) {
      case "1" -> "";
      case "{case}" -> "cases";
      case "{score}" -> "points";
      case "h/d" -> "hours a day";
      case "d" -> "days";
      default -> ucum;
    };
  }
}
