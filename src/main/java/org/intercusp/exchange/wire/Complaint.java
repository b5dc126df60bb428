package org.intercusp.exchange.wire;

import java.time.Clock;
import java.time.Duration;
import java.util.Locale;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** The trouble that an unsuccessful answer, or an unsuccessful entry of one, amounts to. */
public final class Complaint {

  private Complaint() {}

  /**
   * An answer.
   *
   * @param words what the server says in it
   */
  static Trouble of(Answer answer, String words, Clock clock) {
    int status = answer.status();
    Duration wait = Waits.retryAfter(answer.header("Retry-After"), clock).orElse(null);
    boolean elsewhere = status >= 300 && status < 400;
    Difficulty difficulty = elsewhere ? Difficulty.ELSEWHERE : difficulty(status);
    String reason =
        elsewhere
            ? "The server answered " + status + " and points elsewhere, which is not followed"
            : "The server answered " + status;
    return new Trouble(difficulty, reason, status, words, wait);
  }

  /** An entry of a response Bundle. */
  public static Trouble of(String status, @Nullable Resource outcome) {
    String digits = status.replaceAll("[^0-9].*$", "");
    int code = digits.isEmpty() || digits.length() > 3 ? 500 : Integer.parseInt(digits);
    String words = outcome instanceof OperationOutcome said ? FhirText.words(said) : "";
    String reason = "The server answered " + status.toLowerCase(Locale.ROOT) + " for an entry";
    return new Trouble(difficulty(code), reason, code, words, null);
  }

  private static Difficulty difficulty(int status) {
    return switch (status) {
      case 408, 425, 429, 503 -> Difficulty.BUSY;
      case 409, 412 -> Difficulty.CONTENDED;
      default -> status >= 500 ? Difficulty.FAILED : Difficulty.REFUSED;
    };
  }
}
