package org.intercusp.access;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Whom the running thread works for. Doors bind a visit for the length of a request, workers for
 * the length of a task; a thread that was handed work binds its own. Where people log in, a thread
 * for whom nobody is bound reaches nothing at all.
 */
public final class CurrentCaller {

  private static final ThreadLocal<@Nullable Visit> BOUND = new ThreadLocal<>();

  private final @Nullable Caller otherwise;

  private CurrentCaller(@Nullable Caller otherwise) {
    this.otherwise = otherwise;
  }

  /** Where nobody logs in: whoever is at the machine asks. */
  public static CurrentCaller withoutLogin() {
    return new CurrentCaller(Caller.LOCAL);
  }

  /** Where people log in: nobody asks unless bound. */
  public static CurrentCaller withLogin() {
    return new CurrentCaller(null);
  }

  /**
   * Who asks.
   *
   * @throws NoCaller when nobody is bound and people log in
   */
  public Caller caller() {
    return visit().caller();
  }

  /**
   * The piece of work under way.
   *
   * @throws NoCaller when nobody is bound and people log in
   */
  public Visit visit() {
    Visit visit = BOUND.get();
    if (visit != null) {
      return visit;
    }
    if (otherwise == null) {
      throw new NoCaller();
    }
    return new Visit(otherwise, "", TraceContext.fresh());
  }

  /** The condition on rows of the table with this alias that the caller may touch. */
  public Condition condition(String alias) {
    return caller().reach().condition(alias);
  }

  /**
   * Refuses to write for a clinic out of reach.
   *
   * @throws OutOfReach when the caller may not touch the clinic
   */
  public void mustReach(Clinic clinic) {
    if (!caller().reach().covers(clinic)) {
      throw new OutOfReach();
    }
  }

  /**
   * Refuses what is of all clinics at once.
   *
   * @throws OutOfReach when the caller does not reach every clinic
   */
  public void mustReachEverywhere() {
    if (!(caller().reach() instanceof Reach.Everywhere)) {
      throw new OutOfReach();
    }
  }

  /** Where the running thread stands in a chain of requests; a new one where nothing is bound. */
  public static TraceContext trace() {
    Visit visit = BOUND.get();
    return visit == null ? TraceContext.fresh() : visit.trace();
  }

  /** Binds a visit to this thread until the handle is closed, which brings back what was before. */
  public Bound bind(Visit visit) {
    Visit before = BOUND.get();
    BOUND.set(visit);
    return () -> {
      if (before == null) {
        BOUND.remove();
      } else {
        BOUND.set(before);
      }
    };
  }

  /** Does a piece of work for a caller. */
  public <T> T as(Caller caller, Supplier<T> work) {
    return as(new Visit(caller, "", TraceContext.fresh()), work);
  }

  /** Does a piece of work within a visit. */
  public <T> T as(Visit visit, Supplier<T> work) {
    Bound binding = bind(visit);
    try {
      return work.get();
    } finally {
      binding.close();
    }
  }

  /** A binding to close. */
  public interface Bound extends AutoCloseable {
    @Override
    void close();
  }
}
