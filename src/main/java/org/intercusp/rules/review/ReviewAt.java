package org.intercusp.rules.review;

import java.util.List;
import java.util.Optional;
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

  /** The last review by date; of two on one day the later in the record. */
  static Optional<ReviewAt> last(Case about) {
    return about
        .treatment()
        .lastReview()
        .map(last -> new ReviewAt(about.treatment().reviews().indexOf(last), last));
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
