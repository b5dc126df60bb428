package org.intercusp.app;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.turbo.TurboFilter;
import ch.qos.logback.core.spi.FilterReply;
import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.LongSupplier;
import org.intercusp.archive.DatabaseTrouble;
import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;
import org.slf4j.Marker;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * Says in one line, and once in a while, what the libraries below write with a trace at each try
 * while the database is away or its disk full. All else they write stays as it is.
 */
final class TroubleLines extends TurboFilter {

  private static final org.slf4j.Logger LOG = LoggerFactory.getLogger(TroubleLines.class);

  /** How often one of them says the same; common practice, no source. */
  static final Duration ONCE_IN = Duration.ofMinutes(1);

  /** Puts one into the log of this process, once. */
  static final class Laid implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    @Override
    public void initialize(ConfigurableApplicationContext context) {
      if (LoggerFactory.getILoggerFactory() instanceof LoggerContext log
          && log.getTurboFilterList().stream().noneMatch(TroubleLines.class::isInstance)) {
        log.addTurboFilter(new TroubleLines(System::nanoTime));
      }
    }
  }

  private final Map<String, Long> told = new ConcurrentHashMap<>();
  private final LongSupplier nanos;

  /**
   * @param nanos the time, as {@link System#nanoTime()} counts it
   */
  TroubleLines(LongSupplier nanos) {
    this.nanos = nanos;
  }

  @Override
  public FilterReply decide(
      @Nullable Marker marker,
      Logger logger,
      Level level,
      @Nullable String format,
      Object @Nullable [] values,
      @Nullable Throwable fault) {
    if (!level.isGreaterOrEqual(Level.WARN)
        || !level.isGreaterOrEqual(logger.getEffectiveLevel())) {
      return FilterReply.NEUTRAL;
    }
    Throwable thrown = fault == null ? last(values) : fault;
    return thrown == null
        ? FilterReply.NEUTRAL
        : DatabaseTrouble.in(thrown).map(one -> told(logger, one)).orElse(FilterReply.NEUTRAL);
  }

  private FilterReply told(Logger logger, DatabaseTrouble trouble) {
    String who = logger.getName().substring(logger.getName().lastIndexOf('.') + 1);
    long now = nanos.getAsLong();
    // Few: the loggers of libraries that write faults.
    Long last = told.get(who + trouble);
    if (last == null || now - last >= ONCE_IN.toNanos()) {
      told.put(who + trouble, now);
      LOG.warn("{}: {}", who, trouble.words());
    }
    return FilterReply.DENY;
  }

  /** A fault is written as the last value too. */
  private static @Nullable Throwable last(Object @Nullable [] values) {
    return values != null && values.length > 0 && values[values.length - 1] instanceof Throwable one
        ? one
        : null;
  }
}
