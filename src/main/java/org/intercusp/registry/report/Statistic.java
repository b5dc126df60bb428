package org.intercusp.registry.report;

/**
 * One number of a measure.
 *
 * @param unit UCUM
 */
public record Statistic(String code, String title, String unit) {

  static Statistic count(String code, String title) {
    return new Statistic(code, title, "{case}");
  }

  static Statistic share(String code, String title) {
    return new Statistic(code, title, "%");
  }

  static Statistic plain(String code, String title) {
    return new Statistic(code, title, "1");
  }
}
