package org.intercusp.treatment;

import java.io.InputStream;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.treatment.shape.Fault;
import org.intercusp.treatment.shape.JsonText;
import org.intercusp.treatment.shape.Node;
import org.intercusp.treatment.shape.NotJson;
import org.intercusp.treatment.shape.Reading;

/**
 * Reads treatment files strictly. Unknown, repeated or missing members, a wrong type, a number
 * outside its range, a code outside its list, a date that does not exist, an id that stands twice
 * and a reference that leads nowhere are refused, all at once, each with its JSON pointer. Accepts
 * what {@link TreatmentSchema} accepts, save what that says a schema cannot tell.
 */
public final class TreatmentReader {

  /** Reads one file. */
  public ReadResult read(byte[] utf8) {
    return read(utf8, 1);
  }

  /**
   * Reads one text of a file.
   *
   * @param start the line of the file on which it begins, counted from 1
   */
  private ReadResult read(byte[] utf8, long start) {
    Node root;
    try {
      root = JsonText.parse(utf8);
    } catch (NotJson e) {
      return new ReadResult.Refused(List.of(Refusals.of(e, start)));
    }
    return read(root);
  }

  /** Reads what was put together as a tree, by the same rules as a file. */
  public ReadResult read(Node root) {
    Reading reading = new Reading(TreatmentFormat.SOURCE);
    Treatment treatment = TreatmentFormat.TREATMENT.read(root, Pointer.ROOT, reading);
    List<Fault> faults = reading.finish();
    if (treatment == null || !faults.isEmpty()) {
      List<Finding> findings = faults.stream().map(fault -> Refusals.of(fault, root)).toList();
      return new ReadResult.Refused(findings);
    }
    return new ReadResult.Accepted(treatment);
  }

  /**
   * Reads NDJSON, one treatment a line, as the stream is consumed; memory holds one line. Empty
   * lines are skipped, a line that is too long is refused and passed over.
   *
   * @throws java.io.UncheckedIOException while consuming, where the input cannot be read
   */
  public Stream<ReadLine> readLines(InputStream utf8) {
    return readEach(new Lines(utf8));
  }

  /**
   * Reads a file that holds either one treatment over any number of lines, or NDJSON. It is NDJSON
   * where its first line is a JSON text by itself or its second starts another object.
   *
   * @throws java.io.UncheckedIOException while consuming, where the input cannot be read
   */
  public Stream<ReadLine> readFile(InputStream utf8) {
    Lines lines = new Lines(utf8);
    return lines.isOneTextALine()
        ? readEach(lines)
        : Stream.of(new ReadLine(1, read(lines.rest())));
  }

  private Stream<ReadLine> readEach(Lines lines) {
    return lines.stream()
        .map(line -> new ReadLine(line.number(), read(line.bytes(), line.number())));
  }
}
