package org.intercusp.bulk;

import java.time.Instant;
import java.util.List;
import org.intercusp.access.Caller;
import org.jspecify.annotations.Nullable;

/**
 * An export that somebody asked for.
 *
 * @param id a UUID drawn at random
 * @param owner who asked, with the clinics they reached then
 * @param moment the sequence of filing that it shows
 * @param transactionTime no resource that is not in it carries an earlier time
 * @param attempt counted up with each start, so that one that was cut short writes nothing more
 * @param written how many resources so far
 * @param total how many it will be; 0 before that is known
 * @param expiresAt when it goes away; absent while it is under way
 * @param output its files, once it is done
 */
public record ExportJob(
    String id,
    Caller owner,
    Wanted wanted,
    long moment,
    Instant transactionTime,
    State state,
    int attempt,
    long written,
    long total,
    @Nullable Instant expiresAt,
    List<Output> output) {

  public ExportJob {
    output = List.copyOf(output);
  }

  /** Where it stands. */
  public enum State {
    WAITING,
    RUNNING,
    DONE,
    FAILED
  }

  /** One file: resources of one type, a line each. */
  public record Output(String type, long count) {

    /** Its name. */
    public String file() {
      return type + ".ndjson";
    }
  }

  /** Whether it has yet to end. */
  public boolean isUnderWay() {
    return state == State.WAITING || state == State.RUNNING;
  }

  /** Neither request nor owner, which may say who a person is. */
  @Override
  public String toString() {
    return "ExportJob[" + id + ", " + state + "]";
  }
}
