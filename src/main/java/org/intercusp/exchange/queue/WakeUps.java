package org.intercusp.exchange.queue;

import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.exceptions.ExecutionException;
import com.github.kagkarlsson.scheduler.exceptions.TaskInstanceCurrentlyExecutingException;
import com.github.kagkarlsson.scheduler.exceptions.TaskInstanceNotFoundException;
import com.github.kagkarlsson.scheduler.task.TaskInstance;
import java.time.Instant;
import javax.sql.DataSource;
import org.springframework.jdbc.datasource.TransactionAwareDataSourceProxy;

/** Sets when the workers look at a delivery, in the transaction of whoever asks for it. */
public final class WakeUps {

  /** What the workers' task is called, among the wake-ups of all tasks. */
  public static final String TASK = "delivery";

  /** Once more is enough where one worker ends; common practice, no source. */
  private static final int TRIES = 20;

  private final SchedulerClient client;

  public WakeUps(DataSource database) {
    this.client =
        SchedulerClient.Builder.create(new TransactionAwareDataSourceProxy(database)).build();
  }

  /**
   * Sets the wake-up of a delivery, or moves it. One that is there may come to its end before it is
   * moved; then it is made anew.
   */
  public void set(String delivery, Instant when) {
    for (int i = 0; i < TRIES; i++) {
      if (client.scheduleIfNotExists(wakeUp(delivery), when) || moved(delivery, when)) {
        return;
      }
    }
    throw new IllegalStateException("no wake-up could be set in " + TRIES + " tries");
  }

  private static TaskInstance<Void> wakeUp(String delivery) {
    return new TaskInstance<>(TASK, delivery);
  }

  private boolean moved(String delivery, Instant when) {
    try {
      return client.reschedule(wakeUp(delivery), when);
    } catch (TaskInstanceCurrentlyExecutingException e) {
      // Somebody is at it this moment, and comes again by itself: what it found is no longer so.
      return true;
    } catch (TaskInstanceNotFoundException | ExecutionException e) {
      // It ended before it was looked for, or before it was written.
      return false;
    }
  }
}
