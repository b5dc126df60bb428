package org.intercusp.app.security;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Visit;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Thing;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.stereotype.Component;

/**
 * Records refusals that cost nothing to bring about: of requests that were stopped before it was
 * known who asks, and of who comes too often. Each would fill the trail with as many records as
 * somebody cares to send, so equal ones of one caller are counted: the first is recorded at once,
 * those that follow in one record a minute with their number. Equal are those with the same answer,
 * method and first word of the path, from the same address and caller.
 *
 * <p>At most {@value #MOST} are told apart at a time; whatever comes beyond is counted by its
 * answer alone, without an address. So a minute brings at most twice as many records, whoever sends
 * however much. The answer waits for nothing: counting is one step in memory, and a thread of its
 * own writes. What cannot be written is kept and tried again every minute; a process that is killed
 * takes the count of at most a minute along. Nothing the caller wrote is recorded but which of the
 * usual methods it was.
 */
@Component
class RefusalCounts implements AutoCloseable {

  /** Kinds told apart; common practice, no source. */
  static final int MOST = 100;

  private static final Logger LOG = LoggerFactory.getLogger(RefusalCounts.class);

  /** Refusals are counted by the minute; common practice, no source. */
  private static final long WINDOW_SECONDS = 60;

  /** Shorter than the service takes to stop; common practice, no source. */
  private static final long CLOSING_SECONDS = 10;

  private static final Set<String> METHODS =
      Set.of("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE");

  private static final Set<String> PLACES =
      Set.of("treatments", "deliveries", "fhir", "registry", "pages", "check");

  /**
   * What equal refusals have in common.
   *
   * @param words status and method
   * @param place the first word of the path
   * @param network the address; absent where several are counted together
   * @param subject of the caller
   */
  private record Kind(String words, String place, @Nullable String network, String subject) {}

  /**
   * Refusals of a kind.
   *
   * @param first the first of those that are not recorded yet
   * @param count how many of them there are
   */
  private record Tally(Visit first, long count) {}

  private final Map<Kind, Tally> tallies = new ConcurrentHashMap<>();
  private final AuditTrail trail;
  private final ScheduledExecutorService writer;
  private final ScheduledFuture<?> everyWindow;

  @Autowired
  RefusalCounts(AuditTrail trail) {
    this(trail, WINDOW_SECONDS * 1000);
  }

  RefusalCounts(AuditTrail trail, long windowMillis) {
    this.trail = trail;
    this.writer =
        Executors.newSingleThreadScheduledExecutor(
            work -> {
              Thread thread = new Thread(work, "refusals");
              thread.setDaemon(true);
              return thread;
            });
    this.everyWindow =
        writer.scheduleWithFixedDelay(
            this::tellAll, windowMillis, windowMillis, TimeUnit.MILLISECONDS);
  }

  /** Counts the refusal of a request. */
  void note(Refusal refusal, HttpServletRequest request) {
    Caller caller =
        request.getAttribute(CallerFilter.CALLER) instanceof Caller known ? known : Caller.NOBODY;
    Kind kind =
        new Kind(
            words(refusal.status(), request),
            place(request.getRequestURI()),
            request.getRemoteAddr(),
            caller.subject());
    if (tallies.containsKey(kind) || tallies.size() < MOST) {
      count(kind, caller);
    } else {
      Kind any = new Kind(refusal.status() + " of many callers", "other", null, "");
      count(any, Caller.NOBODY);
    }
  }

  private void count(Kind kind, Caller caller) {
    boolean[] first = {false};
    tallies.compute(
        kind,
        (k, old) -> {
          first[0] = old == null;
          return old == null || old.count() == 0
              ? new Tally(CallerFilter.visit(caller), 1)
              : new Tally(old.first(), old.count() + 1);
        });
    if (first[0]) {
      try {
        writer.execute(() -> tell(kind));
      } catch (RejectedExecutionException e) {
        LOG.debug("closing, so it is recorded with the last ones");
      }
    }
  }

  /** Records what came since the last time; what came in none of the last window is forgotten. */
  private void tellAll() {
    for (Kind kind : tallies.keySet()) {
      boolean due =
          tallies.computeIfPresent(kind, (k, tally) -> tally.count() == 0 ? null : tally) != null;
      if (due && !tell(kind)) {
        LOG.warn("refusals wait to be recorded");
        return;
      }
    }
  }

  /** Whether there is nothing left to record of this kind. */
  private boolean tell(Kind kind) {
    AtomicReference<Tally> taken = new AtomicReference<>();
    tallies.computeIfPresent(
        kind,
        (k, tally) -> {
          taken.set(tally);
          return new Tally(tally.first(), 0);
        });
    Tally due = taken.get();
    if (due == null || due.count() == 0) {
      return true;
    }
    try {
      String words = kind.words() + (due.count() == 1 ? "" : ", " + due.count() + " times");
      CurrentCaller.Bound binding = trail.callers().bind(due.first());
      try {
        trail.refused(Thing.list(kind.place()), kind.network(), words);
      } finally {
        binding.close();
      }
      return true;
    } catch (RuntimeException e) {
      tallies.merge(kind, due, (now, back) -> new Tally(back.first(), now.count() + back.count()));
      return false;
    }
  }

  /** The status and the method, which is the caller's where it is none of the usual. */
  static String words(int status, HttpServletRequest request) {
    String method = request.getMethod();
    return status + " " + (METHODS.contains(method) ? method : "another method");
  }

  /** The first word of the path, where it is ours; what follows is the caller's. */
  static String place(String path) {
    for (String known : PLACES) {
      if (path.equals("/" + known) || path.startsWith("/" + known + "/")) {
        return known;
      }
    }
    return "other";
  }

  /** What the writer has taken is no longer among the counts: it is lost unless it gets written. */
  private void awaitWriter() {
    try {
      if (!writer.awaitTermination(CLOSING_SECONDS, TimeUnit.SECONDS)) {
        LOG.warn("a refusal that is being recorded is not waited for");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public void close() {
    everyWindow.cancel(false);
    writer.shutdown();
    awaitWriter();
    tellAll();
  }
}
