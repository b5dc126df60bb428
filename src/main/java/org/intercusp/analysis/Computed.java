package org.intercusp.analysis;

import java.util.Optional;
import java.util.function.Function;

/**
 * The result of a calculation, or the reason there is none: which reading it lacks, or why the
 * arithmetic has no answer. Never a guess, never NaN.
 */
public sealed interface Computed<T> {

  /** There is a result. */
  record Known<T>(T result) implements Computed<T> {}

  /** There is none, and this is why. */
  record Absent<T>(String why) implements Computed<T> {}

  static <T> Computed<T> known(T result) {
    return new Known<>(result);
  }

  static <T> Computed<T> absent(String why) {
    return new Absent<>(why);
  }

  /** The same result seen another way; an absent one keeps its reason. */
  default <R> Computed<R> map(Function<? super T, ? extends R> change) {
    return then(result -> known(change.apply(result)));
  }

  /** Goes on calculating; an absent result keeps its reason. */
  default <R> Computed<R> then(Function<? super T, Computed<R>> next) {
    if (this instanceof Known<T> known) {
      return next.apply(known.result());
    }
    return absent(reason().orElseThrow());
  }

  default Optional<T> value() {
    return this instanceof Known<T> known ? Optional.of(known.result()) : Optional.empty();
  }

  /** Why there is no result; empty when there is one. */
  default Optional<String> reason() {
    return this instanceof Absent<T> absent ? Optional.of(absent.why()) : Optional.empty();
  }
}
