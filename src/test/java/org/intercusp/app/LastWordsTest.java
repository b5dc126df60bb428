package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/** A thread that ends by a fault is told of in a line, and no memory is the end of the service. */
class LastWordsTest {

  private final AtomicInteger ended = new AtomicInteger();
  private final LastWords words = new LastWords(ended::incrementAndGet);

  @Test
  void aFaultIsToldByKindAndPlace() throws InterruptedException {
    Logger log = (Logger) LoggerFactory.getLogger(LastWords.class);
    ListAppender<ILoggingEvent> written = new ListAppender<>();
    written.start();
    log.addAppender(written);
    try {
      run(
          () -> {
            throw new IllegalStateException("zzcanary");
          });
    } finally {
      log.detachAppender(written);
    }
    assertThat(written.list).hasSize(1);
    assertThat(written.list.get(0).getThrowableProxy()).isNull();
    assertThat(written.list.get(0).getFormattedMessage())
        .startsWith("Thread worker ended: java.lang.IllegalStateException at org.intercusp.app.")
        .doesNotContain("zzcanary");
    assertThat(ended).hasValue(0);
  }

  @Test
  void theServiceEndsWhereMemoryRanOut() throws InterruptedException {
    run(
        () -> {
          throw new OutOfMemoryError("Java heap space");
        });
    assertThat(ended).hasValue(1);
  }

  private void run(Runnable work) throws InterruptedException {
    Thread thread = new Thread(work, "worker");
    thread.setUncaughtExceptionHandler(words);
    thread.start();
    thread.join();
  }
}
