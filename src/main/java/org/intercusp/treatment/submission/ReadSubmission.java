package org.intercusp.treatment.submission;

import java.util.List;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/** What reading one outcome record came to. */
public sealed interface ReadSubmission {

  /** It is in order. */
  record Accepted(Submission submission) implements ReadSubmission {}

  /**
   * It was refused, for all of these reasons.
   *
   * @param submitter who sent it, as far as that could be read
   * @param submission its id, as far as that could be read
   * @param patient whom it is about, as far as that could be read
   */
  record Refused(
      List<Refusal> reasons,
      @Nullable Identifier submitter,
      @Nullable String submission,
      @Nullable Identifier patient)
      implements ReadSubmission {
    public Refused {
      reasons = List.copyOf(reasons);
      if (reasons.isEmpty()) {
        throw new IllegalArgumentException("a refusal has a reason");
      }
    }
  }
}
