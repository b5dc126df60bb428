package org.intercusp.registry.store;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.registry.privacy.Pseudonyms;
import org.intercusp.registry.privacy.Reduction;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.Submission;
import org.jspecify.annotations.Nullable;

/**
 * A submission on its way into the store, with nothing left in it that names anybody.
 *
 * @param row what will be kept; null for a withdrawal
 * @param only whose rows a withdrawal takes out; absent: whoever submitted what is kept of the
 *     person
 */
public record Entry(
    long line,
    String submission,
    String person,
    String content,
    int revision,
    @Nullable List<@Nullable Object> row,
    @Nullable String only) {

  /** The same by one who speaks for this submitter alone. */
  public Entry of(String submitter) {
    return new Entry(line, submission, person, content, revision, row, submitter);
  }

  /** Makes the entry of a submission. */
  public static Entry of(
      long line,
      Submission submission,
      byte[] canonical,
      Pseudonyms pseudonyms,
      String keyId,
      Reduction reduction,
      LocalDate today) {
    CaseRow.Hashes hashes = CaseRow.Hashes.of(submission, canonical, pseudonyms);
    Course course = submission.course();
    return new Entry(
        line,
        hashes.submission(),
        hashes.person(),
        hashes.content(),
        submission.revisionNumber(),
        course == null ? null : CaseRow.of(submission, course, hashes, keyId, reduction, today),
        null);
  }
}
