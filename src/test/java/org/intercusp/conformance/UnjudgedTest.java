package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import org.junit.jupiter.api.Test;

/** What keeps the judge from its work is not held against the document. */
class UnjudgedTest {

  private static final byte[] PATIENT = "{\"resourceType\":\"Patient\"}".getBytes(UTF_8);

  private final DeepThreads threads = new DeepThreads();

  @Test
  void aStopInTheMiddleSaysNothingAboutTheDocument() {
    Conformance conformance =
        new Conformance(FhirContext.forR4Cached(), GuardLimits.DEFAULT, Clock.systemUTC());
    Thread.currentThread().interrupt();
    try {
      assertThatThrownBy(() -> conformance.validate(PATIENT, Format.JSON))
          .isInstanceOf(DeepThreads.Interrupted.class);
      assertThat(Thread.currentThread().isInterrupted()).isTrue();
    } finally {
      // So that the next test is not stopped.
      assertThat(Thread.interrupted()).isTrue();
    }
  }

  @Test
  void tooLittleMemorySaysNothingAboutTheDocument() {
    assertThatThrownBy(
            () ->
                threads.run(
                    () -> {
                      throw new OutOfMemoryError("Java heap space");
                    }))
        .isInstanceOf(OutOfMemoryError.class);
  }

  @Test
  void aDocumentThatOverflowsTheStackIsRefused() {
    assertThatThrownBy(
            () ->
                threads.run(
                    () -> {
                      throw new StackOverflowError();
                    }))
        .isInstanceOf(IllegalStateException.class);
  }
}
