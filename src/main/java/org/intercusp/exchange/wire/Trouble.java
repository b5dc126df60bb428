package org.intercusp.exchange.wire;

import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A call that came to nothing, with what the server said of it. */
public final class Trouble extends Exception {

  private static final long serialVersionUID = 1L;

  /** RFC 9110, section 15.5.4. */
  private static final int FORBIDDEN = 403;

  private final Difficulty difficulty;
  private final int status;
  private final String words;
  private final @Nullable Duration retryAfter;
  private boolean unheard;

  /** Where no answer came, or none that says why; the reason is one sentence for a person. */
  public Trouble(Difficulty difficulty, String reason) {
    this(difficulty, reason, 0, "", null);
  }

  /**
   * With what the server said.
   *
   * @param reason one sentence for a person
   * @param status HTTP status, 0 where there was none
   * @param words the server's own words, empty where it said nothing
   * @param retryAfter when the server asked to come again; absent where it did not
   */
  public Trouble(
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

  /** What kind of trouble it is. */
  public Difficulty difficulty() {
    return difficulty;
  }

  /** HTTP status, 0 where there was none. */
  public int status() {
    return status;
  }

  /** Whether the server knows us and does not let us have this. */
  public boolean isForbidden() {
    return status == FORBIDDEN;
  }

  /** The server's own words, for a person. */
  public String words() {
    return words;
  }

  /** When the server asked to come again; empty where it did not. */
  public Optional<Duration> retryAfter() {
    return Optional.ofNullable(retryAfter);
  }

  /** One sentence for a person, with nothing of a patient in it. */
  public String reason() {
    return String.valueOf(getMessage());
  }
}
