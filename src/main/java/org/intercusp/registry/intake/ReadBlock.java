package org.intercusp.registry.intake;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.privacy.Pseudonyms;
import org.intercusp.registry.privacy.Reduction;
import org.intercusp.registry.store.Entry;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.submission.ReadSubmission;
import org.intercusp.treatment.submission.Refusal;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionReader;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.jspecify.annotations.Nullable;

/**
 * What a block of lines came to, in the order of the lines. From here on nothing in memory names
 * anybody.
 */
record ReadBlock(List<Entry> entries, List<RefusedRecord> refused, LineBlocks.Block block) {

  /** A line that was refused, and whom it is about as far as that could be read. */
  record RefusedRecord(long line, List<Refusal> reasons, @Nullable String person) {}

  private static final Refusal NOT_THEIRS =
      new Refusal(
          "record-submitter",
          Pointer.of("submitter"),
          "the clinic of whoever is logged in, since nobody submits for another");

  // A case is its clinic's and counts once there: under another's name it would displace theirs.
  private static final Refusal NOT_THEIR_CLINIC =
      new Refusal(
          "record-clinic",
          Pointer.of("clinic"),
          "the clinic of whoever is logged in, since each clinic submits its own cases");

  /** Reads blocks; one for each thread. */
  static final class Reader {
    private final SubmissionReader reader = new SubmissionReader();
    private final SubmissionWriter writer = new SubmissionWriter();
    private final Pseudonyms pseudonyms;
    private final String keyId;
    private final Reduction reduction;
    private final LocalDate today;
    private final Senders senders;

    Reader(KeyRing keys, Senders senders, Reduction reduction, LocalDate today) {
      this.senders = senders;
      this.pseudonyms = keys.pseudonyms();
      this.keyId = keys.current();
      this.reduction = reduction;
      this.today = today;
    }

    ReadBlock read(LineBlocks.Block block) {
      ReadBlock into = new ReadBlock(new ArrayList<>(), new ArrayList<>(), block.place());
      int from = 0;
      long line = block.firstLine();
      while (from < block.length()) {
        int to = from;
        while (to < block.length() && block.bytes()[to] != '\n') {
          to++;
        }
        byte[] text = Arrays.copyOfRange(block.bytes(), from, to);
        if (!isBlank(text)) {
          read(line, text, into);
        }
        from = to + 1;
        line++;
      }
      return into;
    }

    private void read(long line, byte[] text, ReadBlock into) {
      ReadSubmission read = reader.read(text, today);
      if (read instanceof ReadSubmission.Accepted accepted) {
        Submission submission = accepted.submission();
        Refusal foreign = foreign(submission);
        if (foreign != null) {
          // Nothing is kept of whom it is about: it may be another's patient.
          into.refused.add(new RefusedRecord(line, List.of(foreign), null));
          return;
        }
        byte[] canonical = writer.write(submission);
        Entry entry = Entry.of(line, submission, canonical, pseudonyms, keyId, reduction, today);
        into.entries.add(
            senders.names() == null ? entry : entry.of(Senders.name(submission.submitter())));
      } else if (read instanceof ReadSubmission.Refused refused) {
        Identifier patient = refused.patient();
        String person = patient == null ? null : pseudonyms.person(patient);
        into.refused.add(new RefusedRecord(line, refused.reasons(), person));
      }
    }

    private @Nullable Refusal foreign(Submission submission) {
      if (!senders.include(submission.submitter())) {
        return NOT_THEIRS;
      }
      return senders.include(submission.clinic()) ? null : NOT_THEIR_CLINIC;
    }

    private static boolean isBlank(byte[] text) {
      for (byte each : text) {
        if (each != ' ' && each != '\t' && each != '\r') {
          return false;
        }
      }
      return true;
    }
  }
}
