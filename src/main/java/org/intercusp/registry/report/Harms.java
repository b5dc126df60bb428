package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.List;

/** The kinds of adverse events, as counted: a bit each, in the order of the SQL that sets them. */
final class Harms {

  static final String ANY = "harm_any";

  static final List<String> KINDS =
      List.of(
          "harm_caries",
          "harm_white_spot",
          "harm_gingivitis",
          "harm_ulcer",
          "harm_allergy",
          "harm_joint",
          "harm_incisor_trauma",
          "harm_root_resorption",
          "harm_fragment_swallowed",
          "harm_fragment_inhaled",
          "harm_other",
          "harm_serious");

  private Harms() {}

  /** Any, then each kind. */
  static List<String> columns() {
    List<String> columns = new ArrayList<>(List.of(ANY));
    columns.addAll(KINDS);
    return columns;
  }

  /** What a case with these bits counts for. */
  static List<String> of(long bits) {
    List<String> columns = new ArrayList<>();
    if (bits != 0) {
      columns.add(ANY);
    }
    for (int i = 0; i < KINDS.size(); i++) {
      if ((bits >> i & 1) == 1) {
        columns.add(KINDS.get(i));
      }
    }
    return columns;
  }
}
