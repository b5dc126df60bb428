package org.intercusp.registry.report;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.intercusp.analysis.agreement.EndCounts;
import org.intercusp.analysis.agreement.Followed;
import org.intercusp.analysis.agreement.Followed.Ending;

/** Completes the cube with counts that follow from what the engine brought. */
final class Counts {

  private final Cube cube;
  private final Map<Slice, EndCounts> anyEnd = new TreeMap<>();
  private final Map<Slice, EndCounts> completion = new TreeMap<>();

  Counts(Gathered gathered, Map<MixOutcome, List<Gathered.Expected>> expected) {
    this.cube = gathered.cube();
    gathered
        .known()
        .forEach(
            (field, cases) -> {
              if (field.startsWith(CellPlan.FIELD)) {
                cube.add(Slice.ALL, field, cases);
              }
            });
    expected.forEach((outcome, clinics) -> clinics.forEach(each -> modelled(outcome, each)));
    gathered.ends().forEach(this::end);
    gathered
        .attended()
        .forEach(
            each -> follow(completion, each.slice(), each.day(), Ending.COMPETING, each.cases()));
    for (Slice slice : cube.slices()) {
      classes(slice, "");
      rest(
          slice,
          "icon_not",
          "icon_n",
          "icon_greatly",
          "icon_substantially",
          "icon_moderately",
          "icon_minimally");
      rest(slice, "dhc_same", "dhc_n", "dhc_better", "dhc_worse");
      cube.add(
          slice,
          "end_known",
          cube.sum(slice, "end_completed") + cube.sum(slice, "end_discontinued"));
      double known = cube.sum(slice, "now_completed") + cube.sum(slice, "now_discontinued");
      cube.add(slice, "now_known", known);
      cube.add(slice, "now_all", known + cube.sum(slice, "now_unknown"));
      cube.add(slice, "now_censored", cube.sum(slice, "cases") - known);
      cube.add(slice, "end_all", cube.sum(slice, "end_known") + cube.sum(slice, "end_unknown"));
      for (String end : CellPlan.ENDS) {
        rest(slice, CellPlan.RECENT + end, "now_" + end, "end_" + end);
      }
    }
    classes(Slice.ALL, Cube.COMPLETED);
  }

  private void modelled(MixOutcome outcome, Gathered.Expected each) {
    for (Slice slice : List.of(Slice.ALL, each.clinic())) {
      cube.add(slice, outcome.cases(), each.cases());
      cube.add(slice, outcome.happened(), each.observed());
    }
  }

  private void classes(Slice slice, String prefix) {
    for (String par : new String[] {"uk", "us"}) {
      String name = prefix + par;
      rest(slice, name + "_improved", name + "_n", name + "_worse", name + "_greatly");
    }
  }

  private void rest(Slice slice, String rest, String whole, String... parts) {
    double value = cube.sum(slice, whole);
    for (String part : parts) {
      value -= cube.sum(slice, part);
    }
    cube.add(slice, rest, value);
  }

  private void end(Gathered.Ends ends) {
    String name = ends.standing().name().toLowerCase(Locale.ROOT);
    cube.add(ends.slice(), "now_" + name, ends.cases());
    if (ends.longEnough()) {
      cube.add(ends.slice(), "end_" + name, ends.cases());
    }
    if (ends.day() < 0) {
      return;
    }
    switch (ends.standing()) {
      case COMPLETED -> followBoth(ends, Ending.EVENT);
      case DISCONTINUED -> follow(anyEnd, ends.slice(), ends.day(), Ending.EVENT, ends.cases());
      case GOING_ON, TRANSFERRED, UNKNOWN -> followBoth(ends, Ending.CENSORED);
    }
    boolean ended =
        ends.standing() == Standing.COMPLETED || ends.standing() == Standing.DISCONTINUED;
    for (String column : List.of(name, ended ? "any" : "censored", "n")) {
      cube.add(ends.slice(), "length_" + column, ends.cases());
    }
  }

  private void followBoth(Gathered.Ends ends, Ending ending) {
    follow(anyEnd, ends.slice(), ends.day(), ending, ends.cases());
    follow(completion, ends.slice(), ends.day(), ending, ends.cases());
  }

  private static void follow(
      Map<Slice, EndCounts> into, Slice slice, int day, Ending ending, int cases) {
    into.computeIfAbsent(slice, fresh -> new EndCounts()).add(new Followed(day, ending), cases);
  }

  /** Ends by curve A. */
  EndCounts anyEnd(Slice slice) {
    return anyEnd.getOrDefault(slice, new EndCounts());
  }

  /** Ends by curve B. */
  EndCounts completion(Slice slice) {
    return completion.getOrDefault(slice, new EndCounts());
  }
}
