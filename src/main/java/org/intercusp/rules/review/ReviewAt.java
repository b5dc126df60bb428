package org.intercusp.rules.review;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.intercusp.finding.Pointer;
import org.intercusp.rules.rule.Case;
import org.intercusp.treatment.Review;

/** A review and where it stands in the file. */
record ReviewAt(int index, Review review) {

  static final String OBSERVATION =
      "Bundle.entry.resource.ofType(Observation).where(encounter.exists())";

  static List<ReviewAt> all(Case about) {
    List<Review> list = about.treatment().reviews();
    return IntStream.range(0, list.size()).mapToObj(i -> new ReviewAt(i, list.get(i))).toList();
  }

  /** The last review by date; of several on one day the last of the file. */
  static Optional<ReviewAt> last(Case about) {
    return lastThat(about, at -> true);
  }

  /**
   * The last review that tells something. What a later one found otherwise is over and says nothing
   * of the patient any more; a review that did not look leaves it as it was.
   */
  static Optional<ReviewAt> lastThat(Case about, Predicate<ReviewAt> tells) {
    return all(about).stream()
        .sorted(Comparator.comparing(at -> at.review().date()))
        .filter(tells)
        .reduce((before, after) -> after);
  }

  static String observation(String code) {
    return OBSERVATION + ".where(code.coding.code = '" + code + "')";
  }

  Pointer at(Object... steps) {
    Pointer at = Pointer.of("reviews", index);
    for (Object step : steps) {
      at = step instanceof Integer i ? at.child(i) : at.child(step.toString());
    }
    return at;
  }

  String id() {
    return review.id();
  }
}
