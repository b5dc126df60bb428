package org.intercusp.analysis;

import java.util.Optional;
import java.util.function.Function;

/**
 * A result of a calculation, or the reading it lacks. Nothing is ever guessed: a result that can't
 * be had says why.
 */
public sealed interface Reckoned<T> {

  /** A result. */
  record Known<T>(T value) implements Reckoned<T> {}

  /** No result; the reason names the reading that is missing or makes it impossible. */
  record Lacking<T>(String reason) implements Reckoned<T> {}

  static <T> Reckoned<T> known(T value) {
    return new Known<>(value);
  }

  static <T> Reckoned<T> lacking(String reason) {
    return new Lacking<>(reason);
  }

  /** The result where there is one. */
  default Optional<T> result() {
    return this instanceof Known<T> known ? Optional.of(known.value()) : Optional.empty();
  }

  /** Why there is no result; empty text where there is one. */
  default String reason() {
    return this instanceof Lacking<T> lacking ? lacking.reason() : "";
  }

  default <R> Reckoned<R> map(Function<? super T, ? extends R> next) {
    if (this instanceof Known<T> known) {
      return new Known<>(next.apply(known.value()));
    }
    return new Lacking<>(reason());
  }

  default <R> Reckoned<R> flatMap(Function<? super T, Reckoned<R>> next) {
    return this instanceof Known<T> known ? next.apply(known.value()) : new Lacking<>(reason());
  }
}
