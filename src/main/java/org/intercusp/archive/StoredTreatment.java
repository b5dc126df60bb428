package org.intercusp.archive;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;

/**
 * One version of a stored treatment. It never changes.
 *
 * @param version 1 for the first, counted up without gaps
 * @param receivedAt when it was taken, to the microsecond
 * @param digest SHA-256 of the canonical bytes, in lower-case hexadecimal
 * @param content the canonical JSON text of the treatment file
 */
public record StoredTreatment(
    TreatmentKey key, int version, Instant receivedAt, String digest, String content) {

  /** The canonical bytes. */
  public byte[] bytes() {
    return content.getBytes(StandardCharsets.UTF_8);
  }

  /**
   * The treatment.
   *
   * @throws IllegalStateException where an earlier program took what this one refuses
   */
  public Treatment read(TreatmentReader reader) {
    ReadResult result = reader.read(bytes());
    if (result instanceof ReadResult.Refused refused) {
      throw new IllegalStateException(
          "a stored treatment is no longer readable: " + refused.faults().get(0).code());
    }
    return ((ReadResult.Accepted) result).treatment();
  }

  /** Without the content, which is a patient's. */
  @Override
  public String toString() {
    return "StoredTreatment[version=" + version + ", digest=" + digest + "]";
  }
}
