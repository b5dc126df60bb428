package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.Locale;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A document takes bounded memory whatever the record: what its making allocates in all, and so
 * more than what it can hold at any moment, measured by the virtual machine.
 */
class DocumentMemoryTest {

  private final ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  /** Measured: at most 6 MB for a page, 42 MB for paper, 55 MB for FHIR. */
  @ParameterizedTest
  @CsvSource({"HTML, 10", "PDF, 60", "FHIR, 80"})
  void ofSixtyReviewsAndNamesOf300Letters(Form form, int megabytes) {
    for (Audience audience : Audience.values()) {
      assertThat(allocated(OddTreatments.sixtyReviewsOfLongNames(), audience, form))
          .as("%s", audience)
          .isBetween(100_000L, megabytes * 1_000_000L);
    }
  }

  private long allocated(Treatment treatment, Audience audience, Form form) {
    Written.bytes(treatment, audience, form, Locale.ENGLISH);
    long before = threads.getCurrentThreadAllocatedBytes();
    Written.bytes(treatment, audience, form, Locale.ENGLISH);
    return threads.getCurrentThreadAllocatedBytes() - before;
  }
}
