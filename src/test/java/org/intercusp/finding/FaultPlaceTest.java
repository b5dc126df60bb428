package org.intercusp.finding;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.Test;

/** An unexpected exception is told so that it can be found, and without what it says. */
class FaultPlaceTest {

  @Test
  void kindsAndPlacesAreToldAndMessagesAreNot() {
    IOException root = new IOException("Mia Muster");
    String told =
        FaultPlace.of(new IllegalStateException("Mia", new RuntimeException("Muster", root)));
    assertThat(told)
        .startsWith("java.lang.IllegalStateException at org.intercusp.finding.FaultPlaceTest.")
        .contains(", caused by java.io.IOException at org.intercusp.finding.FaultPlaceTest.")
        .doesNotContain("Mia", "Muster");
  }

  @Test
  void oneWithoutCauseOrTraceIsToldToo() {
    RuntimeException fault = new RuntimeException("Mia");
    fault.setStackTrace(new StackTraceElement[0]);
    assertThat(FaultPlace.of(fault)).isEqualTo("java.lang.RuntimeException at an unknown place");
  }

  @Test
  void causesThatGoRoundInACircleComeToAnEnd() {
    IllegalStateException one = new IllegalStateException("one");
    IllegalArgumentException two = new IllegalArgumentException("two", one);
    one.initCause(two);
    assertThat(FaultPlace.of(one)).startsWith("java.lang.IllegalStateException at ");
  }
}
