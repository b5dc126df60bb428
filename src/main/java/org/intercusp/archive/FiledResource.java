package org.intercusp.archive;

import java.time.Instant;

/**
 * One version of a resource that stored treatments say. It never changes.
 *
 * @param version 1 for the first, counted up without gaps, only when the content changes
 * @param sequence of the filing that wrote it, growing; several resources share one
 * @param updatedAt when the treatment version that says it was taken, to the microsecond
 * @param treatment the treatment that said it so
 * @param withdrawn whether its element went away
 * @param content its text, without version and time
 */
public record FiledResource(
    String type,
    String id,
    int version,
    long sequence,
    Instant updatedAt,
    TreatmentKey treatment,
    boolean withdrawn,
    String content) {

  /** Without the content, which is a patient's. */
  @Override
  public String toString() {
    return "FiledResource[" + type + "/" + id + ", version=" + version + "]";
  }
}
