package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Which counts are published and how they hang together: the wholes whose parts add up, the parts
 * whose remainder is not published but could be worked out, and columns that count the same cases
 * but for what is missing, which stand for one another where nothing is.
 */
record CellPlan(
    List<Split> splits, List<Part> parts, List<Part> over, List<Part> within, List<String> alone) {

  private static final List<String> STANDINGS =
      List.of("going_on", "completed", "discontinued", "transferred", "unknown");

  /** Columns of fields that are there: for all cases together only. */
  static final String FIELD = "has_";

  /** What has ended, of all and of those fitted long enough ago. */
  static final List<String> ENDS = List.of("completed", "discontinued", "unknown", "known", "all");

  /** Columns of ends among those fitted too recently, which nobody publishes. */
  static final String RECENT = "recent_";

  /** Columns of the models: for all cases and by clinic only. */
  static final String MODEL = "mix_";

  static CellPlan whole() {
    List<Split> splits = new ArrayList<>();
    List<Part> parts = new ArrayList<>();
    splits.add(new Split("end_all", List.of("end_known", "end_unknown")));
    splits.add(new Split("end_known", List.of("end_completed", "end_discontinued")));
    List<Part> over = new ArrayList<>();
    List<Part> within = new ArrayList<>();
    standings(splits, over, within);
    for (String par : List.of("uk", "us")) {
      splits.add(
          new Split(par + "_n", List.of(par + "_greatly", par + "_improved", par + "_worse")));
      for (String column : List.of("_n", "_greatly", "_improved", "_worse")) {
        parts.add(new Part(Cube.COMPLETED + par + column, par + column));
      }
      splits.add(
          new Split(
              Cube.COMPLETED + par + "_n",
              List.of(
                  Cube.COMPLETED + par + "_greatly",
                  Cube.COMPLETED + par + "_improved",
                  Cube.COMPLETED + par + "_worse")));
    }
    parts.add(new Part("large_n", "uk_n"));
    parts.add(new Part("uk_greatly", "large_n"));
    splits.add(
        new Split(
            "icon_n",
            List.of(
                "icon_greatly",
                "icon_substantially",
                "icon_moderately",
                "icon_minimally",
                "icon_not")));
    splits.add(new Split("dhc_n", List.of("dhc_better", "dhc_same", "dhc_worse")));
    parts.add(new Part("need_before", "need_n"));
    parts.add(new Part("need_after", "need_n"));
    within.add(new Part("us_n", "uk_n"));
    within.add(new Part(Cube.COMPLETED + "uk_n", "now_completed"));
    within.add(new Part(Cube.COMPLETED + "us_n", "now_completed"));
    within.add(new Part("large_n", "large_due"));
    within.add(new Part("need_n", "dhc_n"));
    parts.add(new Part("broke", "cases"));
    parts.add(new Part(Harms.ANY, "cases"));
    for (String harm : Harms.KINDS) {
      parts.add(new Part(harm, "cases"));
      parts.add(new Part(harm, Harms.ANY));
    }
    for (MixOutcome outcome : MixOutcome.values()) {
      parts.add(new Part(outcome.cases(), outcome.compared().whole()));
      parts.add(new Part(outcome.happened(), outcome.compared().events()));
      parts.add(new Part(outcome.happened(), outcome.cases()));
    }
    fields(within);
    return new CellPlan(splits, parts, over, within, List.of("oj_n", "ob_n"));
  }

  /**
   * Where cases stand is counted three times: of all, of those fitted long enough ago, and of those
   * whose days are known. Some of these are not shown but follow from what is: they stand here by
   * names of their own, and each way in which they add up.
   */
  private static void standings(List<Split> splits, List<Part> over, List<Part> within) {
    splits.add(new Split("cases", STANDINGS.stream().map(each -> "now_" + each).toList()));
    splits.add(new Split("cases", List.of("now_all", "now_going_on", "now_transferred")));
    splits.add(new Split("cases", List.of("now_known", "now_censored")));
    splits.add(new Split("now_all", List.of("now_known", "now_unknown")));
    splits.add(new Split("now_known", List.of("now_completed", "now_discontinued")));
    splits.add(
        new Split("now_censored", List.of("now_going_on", "now_transferred", "now_unknown")));
    splits.add(new Split("cases", List.of("has_status", "now_unknown")));
    for (String end : ENDS) {
      over.add(new Part("end_" + end, "now_" + end));
    }
    splits.add(new Split(RECENT + "all", List.of(RECENT + "known", RECENT + "unknown")));
    splits.add(new Split(RECENT + "known", List.of(RECENT + "completed", RECENT + "discontinued")));
    splits.add(new Split("length_n", List.of("length_any", "length_censored")));
    splits.add(new Split("length_any", List.of("length_completed", "length_discontinued")));
    splits.add(
        new Split(
            "length_censored", List.of("length_going_on", "length_transferred", "length_unknown")));
    for (String standing : STANDINGS) {
      within.add(new Part("length_" + standing, "now_" + standing));
    }
    within.add(new Part("length_any", "now_known"));
    within.add(new Part("length_censored", "now_censored"));
    within.add(new Part("length_n", "cases"));
  }

  /** What needs a field counts no more cases than have it. */
  private static void fields(List<Part> within) {
    within.add(new Part("uk_n", "has_uk_before"));
    within.add(new Part("uk_n", "has_uk_after"));
    within.add(new Part("icon_n", "has_icon_before"));
    within.add(new Part("icon_n", "has_icon_after"));
    within.add(new Part("dhc_n", "has_start_dhc"));
    within.add(new Part("dhc_n", "has_end_dhc"));
    within.add(new Part("oj_n", "has_start_overjet"));
    within.add(new Part("oj_n", "has_end_overjet"));
    within.add(new Part("ob_n", "has_start_overbite"));
    within.add(new Part("ob_n", "has_end_overbite"));
    within.add(new Part("wear_reported_n", "has_wear_reported"));
    within.add(new Part("wear_measured_n", "has_wear_measured"));
    within.add(new Part("length_any", "has_treatment_days"));
    within.add(new Part("length_n", "has_first_fitted_month"));
    for (String field : Cube.named("known")) {
      if (field.startsWith(FIELD)) {
        within.add(new Part(field, "cases"));
      }
    }
  }

  /** Whether a column is published for the groups of a dimension. */
  static boolean published(String column, Dimension dimension) {
    if (column.startsWith(Cube.COMPLETED) || column.startsWith(FIELD)) {
      return dimension == Dimension.ALL;
    }
    return !column.startsWith(MODEL) || dimension == Dimension.ALL || dimension == Dimension.CLINIC;
  }

  /** Every pair of which one is among the other. */
  List<Part> inclusions() {
    return Stream.of(parts, over, within).flatMap(List::stream).toList();
  }

  /** Every published column once. */
  List<String> columns() {
    List<String> columns = new ArrayList<>(alone);
    splits.forEach(
        split -> {
          columns.add(split.whole());
          columns.addAll(split.parts());
        });
    inclusions()
        .forEach(
            part -> {
              columns.add(part.part());
              columns.add(part.whole());
            });
    return columns.stream().distinct().toList();
  }

  /** Parts that add up to the whole, all published or to be worked out. */
  record Split(String whole, List<String> parts) {

    boolean published(Dimension dimension) {
      return CellPlan.published(whole, dimension)
          && parts.stream().allMatch(part -> CellPlan.published(part, dimension));
    }
  }

  /**
   * A part of a whole; the rest is not published. In the first list a small rest hides the part; in
   * the second the rest is a column of its own and rather hides the whole, since by the part
   * clinics are compared; in the third the rest says only what is missing. The two are tied where
   * there is none.
   */
  record Part(String part, String whole) {

    /** The column of the rest, of those that have one. */
    String recent() {
      return RECENT + part.substring("end_".length());
    }
  }
}
