package org.intercusp.exchange.wire;

import java.time.Duration;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.hl7.fhir.r4.model.Bundle;

/**
 * What a sender knows of its earlier tries, and what it is asked while it sends.
 *
 * @param perhapsHeld earlier versions of which some or all may have reached the server unheard of
 * @param settled the moment from which on nothing that was sent before will be carried out any more
 * @param repeatable whether all that was sent before and not answered says the same as this and was
 *     sent on condition: whichever of the two comes second then stores nothing
 * @param writing asked before every write
 * @param answered told after every write that had an answer
 * @param sole asked before people and organisations are created on a server that knows no
 *     conditions; whether nobody else creates such meanwhile
 */
public record Past(
    List<Bundle> perhapsHeld,
    Deadline settled,
    boolean repeatable,
    Writing writing,
    Runnable answered,
    BooleanSupplier sole) {

  /** Asked before every write. */
  public interface Writing {
    /**
     * Whether the sender still has the right to.
     *
     * @param conditional whether all that it creates is created on the condition that it is absent
     */
    boolean may(boolean conditional);
  }

  /** For who keeps no record of tries. */
  public static final Past NONE =
      new Past(List.of(), Deadline.in(Duration.ZERO), true, on -> true, () -> {}, () -> true);

  /** For who only reads. */
  public static final Past READING =
      new Past(List.of(), Deadline.in(Duration.ZERO), true, on -> false, () -> {}, () -> false);

  public Past {
    perhapsHeld = List.copyOf(perhapsHeld);
  }

  /** The same for what is no version of the treatment: earlier versions do not go away by it. */
  public Past alone() {
    return new Past(List.of(), settled, repeatable, writing, answered, sole);
  }
}
