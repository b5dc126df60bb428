package org.intercusp.registry.report;

import java.util.Arrays;
import java.util.List;

/** What cases are grouped by. */
public enum Dimension {
  ALL("all", "all", "All cases"),
  APPLIANCE("appliance", "appliance", "Appliance type"),
  AGE("age", "age_band", "Age at first active fitting, in years"),
  GROWTH("growth", "growth", "Growth stage"),
  YEAR("year", "year_started", "Year of first active fitting"),
  CLINIC("clinic", "clinic", "Clinic"),
  DAY("day", "day", "Days from first active fitting"),
  FIELD("field", "field", "Field"),
  TERM("term", "term", "Term of the model");

  /** Those by which each figure is split. */
  static final List<Dimension> SPLITS = List.of(APPLIANCE, AGE, GROWTH, YEAR, CLINIC);

  private static final List<String> AGES =
      List.of("under 10", "10-11", "12-13", "14-15", "16 and over", Members.NOT_RECORDED);

  private final String code;
  private final String column;
  private final String shown;

  Dimension(String code, String column, String shown) {
    this.code = code;
    this.column = column;
    this.shown = shown;
  }

  public String code() {
    return code;
  }

  String column() {
    return column;
  }

  public String shown() {
    return shown;
  }

  static Dimension ofColumn(String column) {
    return Arrays.stream(values())
        .filter(each -> each.column.equals(column))
        .findFirst()
        .orElseThrow();
  }

  String shown(String member) {
    return switch (this) {
      case YEAR -> member.equals("0") ? Members.NOT_RECORDED : member;
      case AGE -> AGES.get(Integer.parseInt(member));
      default -> member;
    };
  }

  int order(String one, String other) {
    return switch (this) {
      case AGE -> Integer.compare(AGES.indexOf(one), AGES.indexOf(other));
      case DAY -> Integer.compare(Integer.parseInt(one), Integer.parseInt(other));
      default -> one.compareTo(other);
    };
  }
}
