package org.intercusp.access;

import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where a piece of work stands in a chain of requests through several services (W3C Trace Context,
 * Recommendation of 23 November 2021). It is drawn at random and says nothing of what is asked.
 *
 * @param trace the chain, 32 hexadecimal digits
 * @param span the link in the chain, 16 hexadecimal digits
 * @param flags 2 hexadecimal digits
 */
public record TraceContext(String trace, String span, String flags) {

  private static final Pattern HEADER =
      Pattern.compile("00-([0-9a-f]{32})-([0-9a-f]{16})-([0-9a-f]{2})");
  private static final SecureRandom RANDOM = new SecureRandom();

  /** Reads a {@code traceparent} header; empty where it is none of version 00. */
  public static Optional<TraceContext> read(@Nullable String header) {
    Matcher parts = HEADER.matcher(header == null ? "" : header);
    if (!parts.matches() || isZero(parts.group(1)) || isZero(parts.group(2))) {
      return Optional.empty();
    }
    return Optional.of(new TraceContext(parts.group(1), parts.group(2), parts.group(3)));
  }

  /** A new chain; not sampled, since nothing here records spans. */
  public static TraceContext fresh() {
    return new TraceContext(drawn(16), drawn(8), "00");
  }

  /** The next link of the same chain. */
  public TraceContext next() {
    return new TraceContext(trace, drawn(8), flags);
  }

  /** As a {@code traceparent} header. */
  public String header() {
    return "00-" + trace + "-" + span + "-" + flags;
  }

  private static boolean isZero(String digits) {
    return digits.chars().allMatch(digit -> digit == '0');
  }

  private static String drawn(int bytes) {
    byte[] random = new byte[bytes];
    RANDOM.nextBytes(random);
    // Never all zeros, which the recommendation forbids.
    random[0] |= 1;
    return HexFormat.of().formatHex(random);
  }
}
