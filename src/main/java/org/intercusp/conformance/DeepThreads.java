package org.intercusp.conformance;

import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Threads with a deep stack, as many as there are processors. The general validator follows
 * references by recursion, so that a ring of the size the guard lets through overflows an ordinary
 * thread.
 */
final class DeepThreads {

  /** Address space, of which only what a document needs is ever used. */
  private static final long STACK = 256L * 1024 * 1024;

  private static final int COUNT = Math.max(2, Runtime.getRuntime().availableProcessors());

  /** How long a thread waits for the next document; common practice, no source. */
  private static final int IDLE_SECONDS = 30;

  private final AtomicInteger number = new AtomicInteger();
  private final ExecutorService threads;

  DeepThreads() {
    ThreadPoolExecutor pool =
        new ThreadPoolExecutor(
            COUNT,
            COUNT,
            IDLE_SECONDS,
            TimeUnit.SECONDS,
            new LinkedBlockingQueue<>(),
            work -> {
              Thread thread =
                  new Thread(null, work, "conformance-" + number.incrementAndGet(), STACK);
              thread.setDaemon(true);
              return thread;
            });
    pool.allowCoreThreadTimeOut(true);
    this.threads = pool;
  }

  /** Who waited is to stop; nothing is said about the document. */
  static final class Interrupted extends RuntimeException {

    private static final long serialVersionUID = 1L;

    Interrupted(InterruptedException cause) {
      super("interrupted while a document was judged", cause);
    }
  }

  /** Does the work on a deep thread and waits for it. */
  <T> T run(Callable<T> work) {
    Future<T> result = threads.submit(work);
    try {
      return result.get();
    } catch (InterruptedException e) {
      result.cancel(true);
      Thread.currentThread().interrupt();
      throw new Interrupted(e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException ours) {
        throw ours;
      }
      if (e.getCause() instanceof OutOfMemoryError tooLittle) {
        // Says nothing about the document, which may be judged another time.
        throw tooLittle;
      }
      throw new IllegalStateException("a document could not be judged", e.getCause());
    }
  }
}
