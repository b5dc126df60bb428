package org.intercusp.exchange;

import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A call that came to nothing, with what the server said of it. */
final class Trouble extends Exception {

  private static final long serialVersionUID = 1L;

  /** RFC 9110, section 15.5.4. */
  private static final int FORBIDDEN = 403;

  private final Difficulty difficulty;
  private final int status;
  private final String words;
  private final @Nullable Duration retryAfter;
  private boolean unheard;

  Trouble(Difficulty difficulty, String reason) {
    this(difficulty, reason, 0, "", null);
  }

  Trouble(
      Difficulty difficulty,
      String reason,
      int status,
      String words,
      @Nullable Duration retryAfter) {
    super(reason);
    this.difficulty = difficulty;
    this.status = status;
    this.words = words;
    this.retryAfter = retryAfter;
  }

  /** The same for a request that went out, or part of it, and had no answer. */
  Trouble unheard() {
    unheard = true;
    return this;
  }

  /** Whether the request may be carried out although nobody heard of it. */
  boolean isUnheard() {
    return unheard;
  }

  Difficulty difficulty() {
    return difficulty;
  }

  /** HTTP status, 0 where there was none. */
  int status() {
    return status;
  }

  /** Whether the server knows us and does not let us have this. */
  boolean isForbidden() {
    return status == FORBIDDEN;
  }

  /** The server's own words, for a person. */
  String words() {
    return words;
  }

  Optional<Duration> retryAfter() {
    return Optional.ofNullable(retryAfter);
  }

  String reason() {
    return String.valueOf(getMessage());
  }
}
