package org.intercusp.access;

import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One piece of work for a caller: a request, or a task of a worker. It is used by one thread at a
 * time.
 */
public final class Visit {

  private final Caller caller;
  private final String request;
  private final TraceContext trace;
  private @Nullable String query;
  private final Set<Object> noted = new HashSet<>();

  /**
   * A piece of work that begins.
   *
   * @param request the id under which logs and answers speak of it; empty where there is none
   * @param trace where it stands in a chain of requests
   */
  public Visit(Caller caller, String request, TraceContext trace) {
    this.caller = caller;
    this.request = request;
    this.trace = trace;
  }

  /** Where it stands in a chain of requests. */
  public TraceContext trace() {
    return trace;
  }

  /** For whom. */
  public Caller caller() {
    return caller;
  }

  /** The id under which logs and answers speak of it; empty where there is none. */
  public String request() {
    return request;
  }

  /** By what it seeks, as path and parameters; absent where that is not told. */
  public @Nullable String query() {
    return query;
  }

  /**
   * Remembers by what it seeks. It may name a patient, so it goes into the trail and into no log.
   */
  public void seeks(String pathAndParameters) {
    query = pathAndParameters;
  }

  /** Remembers something for the length of the work. */
  public void note(Object thing) {
    noted.add(thing);
  }

  /** Whether it was remembered. */
  public boolean has(Object thing) {
    return noted.contains(thing);
  }
}
