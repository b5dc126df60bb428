package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.List;

/**
 * Which counts are published and how they hang together: the wholes whose parts add up, and the
 * parts whose remainder is not published but could be worked out.
 */
record CellPlan(List<Split> splits, List<Part> parts, List<String> alone) {

  static CellPlan whole() {
    List<Split> splits = new ArrayList<>();
    List<Part> parts = new ArrayList<>();
    splits.add(
        new Split(
            "cases",
            List.of(
                "now_going_on",
                "now_completed",
                "now_discontinued",
                "now_transferred",
                "now_unknown")));
    splits.add(new Split("end_all", List.of("end_known", "end_unknown")));
    splits.add(new Split("end_known", List.of("end_completed", "end_discontinued")));
    for (String end : List.of("completed", "discontinued", "unknown")) {
      parts.add(new Part("end_" + end, "now_" + end));
    }
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
    parts.add(new Part("broke", "cases"));
    parts.add(new Part(Harms.ANY, "cases"));
    for (String harm : Harms.KINDS) {
      parts.add(new Part(harm, "cases"));
      parts.add(new Part(harm, Harms.ANY));
    }
    return new CellPlan(
        splits,
        parts,
        List.of(
            "oj_n",
            "ob_n",
            "wear_reported_n",
            "wear_measured_n",
            "large_due",
            "length_n",
            "length_any",
            "length_completed"));
  }

  /** Every published column once. */
  List<String> columns() {
    List<String> columns = new ArrayList<>(alone);
    splits.forEach(
        split -> {
          columns.add(split.whole());
          columns.addAll(split.parts());
        });
    parts.forEach(
        part -> {
          columns.add(part.part());
          columns.add(part.whole());
        });
    return columns.stream().distinct().toList();
  }

  /** Parts that add up to the whole, all published. */
  record Split(String whole, List<String> parts) {}

  /** A part of a whole; the rest is not published. */
  record Part(String part, String whole) {}
}
