package org.intercusp.treatment.submission;

import java.io.ByteArrayOutputStream;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.ObjectWriteContext;
import tools.jackson.core.json.JsonFactory;

/** Writes outcome records as the reader reads them. */
public final class SubmissionWriter {

  private static final JsonFactory JSON = JsonFactory.builder().build();

  /** The record in UTF-8, without a line end, as NDJSON wants it. */
  public byte[] write(Submission submission) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(1024);
    try (JsonGenerator out = JSON.createGenerator(ObjectWriteContext.empty(), bytes)) {
      SubmissionFormat.SUBMISSION.write(submission, out);
    }
    return bytes.toByteArray();
  }
}
