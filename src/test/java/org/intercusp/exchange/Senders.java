package org.intercusp.exchange;

import java.time.Duration;
import java.util.List;
import org.intercusp.exchange.Schedule.Step.Submit;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.wire.Target;

/** Two senders on one database, as a schedule needs them. */
interface Senders extends AutoCloseable {

  /** The same server for all schedules; this is what stands behind it from now on. */
  void serve(Hospital hospital);

  Target target();

  /** How long a whole call may take. */
  Duration patience();

  /** Takes a version of a treatment and queues it; comes back when that is certain. */
  void submit(Submit submit) throws Exception;

  /** The deliveries of the clinic with the mark. */
  List<Delivery> deliveries(String mark) throws Exception;

  /** A person has it tried again. */
  void retry(String id) throws Exception;

  /** Sets the clock of an instance, 0 or 1, so far from the true time. */
  void jump(int instance, Duration offset) throws Exception;

  /** Kills the process that shows this authorization; another takes its place. */
  void kill(String authorization);

  @Override
  void close() throws Exception;
}
