package org.intercusp.rules.rule;

import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;

/**
 * A sample of a rule: changes to the base treatment ({@code sample-base.json}) as a JSON object of
 * JSON pointers and new values. {@code null} removes, a pointer that ends in {@code /-} appends.
 *
 * @param changes the JSON object
 * @param pointer where the finding is expected; empty for a passing sample
 * @param to the recipient's scope, for a rule about a delivery
 */
public record Sample(String changes, String pointer, @Nullable ConsentScope to) {

  public static Sample failing(String pointer, String changes) {
    return new Sample(changes, pointer, null);
  }

  public static Sample passing(String changes) {
    return new Sample(changes, "", null);
  }

  /** The same on the way to a recipient. */
  public Sample deliveredTo(ConsentScope scope) {
    return new Sample(changes, pointer, scope);
  }
}
