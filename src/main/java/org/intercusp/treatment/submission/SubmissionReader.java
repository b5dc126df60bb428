package org.intercusp.treatment.submission;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.shape.Fault;
import org.intercusp.treatment.shape.JsonText;
import org.intercusp.treatment.shape.Node;
import org.intercusp.treatment.shape.NotJson;
import org.intercusp.treatment.shape.Reading;
import org.jspecify.annotations.Nullable;

/**
 * Reads outcome records as strictly as treatment files are read: form first (what {@link
 * SubmissionSchema} says), then the rules of {@link SubmissionRules}; all faults at once, each with
 * its JSON pointer. Limits of size and depth are those of {@link JsonText}.
 */
public final class SubmissionReader {

  /**
   * Reads one record.
   *
   * @param today nothing in it may be later
   */
  public ReadSubmission read(byte[] utf8, LocalDate today) {
    Node root;
    try {
      root = JsonText.parse(utf8);
    } catch (NotJson e) {
      return new ReadSubmission.Refused(List.of(notJson(e)), null, null, null);
    }
    Reading reading = new Reading(SubmissionFormat.SOURCE);
    Submission submission = SubmissionFormat.SUBMISSION.read(root, Pointer.ROOT, reading);
    List<Fault> faults = reading.finish();
    if (submission == null || !faults.isEmpty()) {
      return refused(root, faults.stream().map(SubmissionReader::refusal).toList());
    }
    List<Refusal> broken = SubmissionRules.broken(submission, today);
    return broken.isEmpty() ? new ReadSubmission.Accepted(submission) : refused(root, broken);
  }

  private static Refusal notJson(NotJson fault) {
    return fault.isTooLarge()
        ? new Refusal(
            Fault.Code.TOO_LARGE.text(), Pointer.ROOT, "one record within the limits of size")
        : new Refusal(
            Fault.Code.NOT_JSON.text(),
            Pointer.ROOT,
            "one JSON text in UTF-8; it breaks at column " + fault.column());
  }

  private static Refusal refusal(Fault fault) {
    return new Refusal(fault.code().text(), fault.at(), fault.expected());
  }

  private static ReadSubmission.Refused refused(Node root, List<Refusal> reasons) {
    return new ReadSubmission.Refused(
        reasons,
        identifier(root, "submitter"),
        text(root, "submission"),
        identifier(root, "patient"));
  }

  private static @Nullable Identifier identifier(Node root, String member) {
    Node node = root instanceof Node.Obj object ? object.member(member) : null;
    String system = text(node, "system");
    String value = text(node, "value");
    return system == null || value == null ? null : new Identifier(system, value);
  }

  private static @Nullable String text(@Nullable Node node, String member) {
    return node instanceof Node.Obj object && object.member(member) instanceof Node.Str text
        ? text.text()
        : null;
  }
}
