package org.intercusp.exchange;

import org.opentest4j.TestAbortedException;

/**
 * What a test does when something it needs is not on this machine: it says so and is skipped, or,
 * where {@code INTERCUSP_REQUIRE_ALL=true} promises that everything is there, it fails.
 */
public final class Absence {

  private Absence() {}

  /** The same for what no machine has to have: the test is always skipped, never failed. */
  static RuntimeException optional(String whatAndWhy) {
    System.out.println("Skipped: " + whatAndWhy);
    return new TestAbortedException(whatAndWhy);
  }

  /** The exception to throw for it. */
  public static RuntimeException of(String whatAndWhy) {
    if (Boolean.parseBoolean(System.getenv("INTERCUSP_REQUIRE_ALL"))) {
      throw new AssertionError("Required here, but missing: " + whatAndWhy);
    }
    return optional(whatAndWhy);
  }
}
