package org.intercusp.treatment;

import java.util.List;
import org.intercusp.finding.Finding;

/** What reading a treatment file came to. */
public sealed interface ReadResult {

  /** The file is a treatment. */
  record Accepted(Treatment treatment) implements ReadResult {}

  /** The file was refused, for all of these reasons. */
  record Refused(List<Finding> faults) implements ReadResult {
    public Refused {
      faults = List.copyOf(faults);
      if (faults.isEmpty()) {
        throw new IllegalArgumentException("a refusal has a reason");
      }
    }
  }
}
