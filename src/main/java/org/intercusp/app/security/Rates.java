package org.intercusp.app.security;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.github.bucket4j.Bucket;
import io.github.bucket4j.ConsumptionProbe;
import io.github.bucket4j.EstimationProbe;
import io.github.bucket4j.TimeMeter;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Duration;
import java.util.Objects;
import org.intercusp.access.Caller;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.stereotype.Component;

/** How often each caller may come; who comes too often is told when to come again. */
@Component
class Rates {

  /** Callers remembered at a time; common practice, no source. */
  private static final int MOST_CALLERS = 50_000;

  private static final Duration MINUTE = Duration.ofMinutes(1);

  private final RateSettings settings;
  private final Refusals refusals;
  private final TimeMeter time;
  private final Cache<String, Bucket> buckets =
      Caffeine.newBuilder()
          .maximumSize(MOST_CALLERS)
          .expireAfterAccess(MINUTE.multipliedBy(2))
          .build();

  @Autowired
  Rates(RateSettings settings, Refusals refusals) {
    this(settings, refusals, TimeMeter.SYSTEM_MILLISECONDS);
  }

  Rates(RateSettings settings, Refusals refusals, TimeMeter time) {
    this.settings = settings;
    this.refusals = refusals;
    this.time = time;
  }

  /** Counts a request; where it is one too many, answers it with 429 and {@code Retry-After}. */
  boolean isTooMuch(Caller caller, HttpServletRequest request, HttpServletResponse response)
      throws IOException {
    return switch (caller.kind()) {
      case LOCAL -> counted("local", settings.local(), request, response);
      case NOBODY ->
          counted(
              "from " + AddressBlock.of(request.getRemoteAddr()),
              settings.nobody(),
              request,
              response);
      default -> counted(by(caller.subject()), settings.caller(), request, response);
    };
  }

  /** Counts a request of which it is not known who asks, by where it comes from. */
  boolean isTooMuch(HttpServletRequest request, HttpServletResponse response) throws IOException {
    return counted(at(request), settings.address(), request, response);
  }

  /** Gives back what {@link #isTooMuch(HttpServletRequest, HttpServletResponse)} counted. */
  void giveBack(HttpServletRequest request) {
    bucket(at(request), settings.address()).addTokens(1);
  }

  /** Whether a caller has no request left; where so, answers. Counts nothing. */
  boolean isSpent(String subject, HttpServletRequest request, HttpServletResponse response)
      throws IOException {
    Bucket bucket = bucket(by(subject), settings.caller());
    EstimationProbe probe = bucket.estimateAbilityToConsume(1);
    if (probe.canBeConsumed()) {
      return false;
    }
    refuse(probe.getNanosToWaitForRefill(), request, response);
    return true;
  }

  private static String by(String subject) {
    return "by " + subject;
  }

  private static String at(HttpServletRequest request) {
    return "at " + AddressBlock.of(request.getRemoteAddr());
  }

  private Bucket bucket(String whose, int aMinute) {
    return Objects.requireNonNull(buckets.get(whose, name -> fresh(aMinute)));
  }

  private boolean counted(
      String whose, int aMinute, HttpServletRequest request, HttpServletResponse response)
      throws IOException {
    ConsumptionProbe probe = bucket(whose, aMinute).tryConsumeAndReturnRemaining(1);
    if (probe.isConsumed()) {
      return false;
    }
    refuse(probe.getNanosToWaitForRefill(), request, response);
    return true;
  }

  private void refuse(long nanos, HttpServletRequest request, HttpServletResponse response)
      throws IOException {
    long seconds = Duration.ofNanos(nanos).toSeconds() + 1;
    response.setHeader("Retry-After", Long.toString(seconds));
    refusals.write(Refusal.TOO_OFTEN, request, response);
  }

  private Bucket fresh(int aMinute) {
    return Bucket.builder()
        .addLimit(limit -> limit.capacity(aMinute).refillGreedy(aMinute, MINUTE))
        .withCustomTimePrecision(time)
        .build();
  }
}
