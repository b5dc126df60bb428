package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.io.IOException;
import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import java.util.concurrent.atomic.AtomicLong;
import org.h2.api.ErrorCode;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.slf4j.Logger;

/** A log is readable while the database is away, and still tells a fault of ours with its place. */
class TroubleLinesTest {

  private final LoggerContext context = new LoggerContext();
  private final ListAppender<ILoggingEvent> written = new ListAppender<>();
  private final ListAppender<ILoggingEvent> ours = new ListAppender<>();
  private final AtomicLong nanos = new AtomicLong();
  private final Logger library = context.getLogger("com.example.scheduler.Looking");
  private final ch.qos.logback.classic.Logger told =
      (ch.qos.logback.classic.Logger) org.slf4j.LoggerFactory.getLogger(TroubleLines.class);

  @BeforeEach
  void listen() {
    context.addTurboFilter(new TroubleLines(nanos::get));
    written.start();
    ours.start();
    context.getLogger(Logger.ROOT_LOGGER_NAME).addAppender(written);
    told.addAppender(ours);
  }

  @org.junit.jupiter.api.AfterEach
  void noLonger() {
    told.detachAppender(ours);
  }

  @Test
  void onceAMinuteInOneLine() {
    for (int i = 0; i < 100; i++) {
      library.error("Unhandled exception", away());
      library.warn("It failed for {}", "zzcanary", away());
    }
    assertThat(written.list).isEmpty();
    assertThat(ours.list)
        .singleElement()
        .satisfies(line -> assertThat(line.getThrowableProxy()).isNull())
        .extracting(ILoggingEvent::getFormattedMessage)
        .isEqualTo("Looking: the database cannot be reached");

    nanos.addAndGet(TroubleLines.ONCE_IN.toNanos());
    library.error("Unhandled exception", away());
    assertThat(ours.list).hasSize(2);
  }

  @Test
  void whatIsNoTroubleOfTheDatabaseStaysAsItIs() {
    library.error("Unhandled exception", new IllegalStateException("of ours"));
    library.error("A row is there", new SQLException("unique", "23505"));
    library.warn("A word");
    assertThat(written.list).hasSize(3);
    assertThat(ours.list).isEmpty();
  }

  @Test
  void whatWouldNotBeWrittenIsNotTold() {
    ((ch.qos.logback.classic.Logger) library).setLevel(Level.OFF);
    library.error("Unhandled exception", away());
    assertThat(ours.list).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "57P01, 0, the database cannot be reached",
    "08006, 0, the database cannot be reached",
    "53100, 0, the disk of the database is full",
    "90098,"
        + ErrorCode.DATABASE_IS_CLOSED
        + ", 'the embedded database is closed, most often by a full disk'"
  })
  void eachTroubleHasItsWords(String state, int code, String words) {
    library.error("Unhandled exception", new RuntimeException(new SQLException("x", state, code)));
    assertThat(ours.list.get(0).getFormattedMessage()).isEqualTo("Looking: " + words);
  }

  @Test
  void aFullDiskIsWhyTheDatabaseIsClosed() {
    SQLException closed = new SQLException("x", "90098", ErrorCode.DATABASE_IS_CLOSED);
    closed.initCause(new IOException("No space left on device"));
    library.error("Unhandled exception", closed);
    assertThat(ours.list.get(0).getFormattedMessage()).endsWith("the disk of the database is full");
  }

  private static RuntimeException away() {
    return new IllegalStateException(new SQLTransientConnectionException("timed out"));
  }
}
