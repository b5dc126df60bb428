package org.intercusp.exchange;

import java.time.Duration;
import java.util.List;
import java.util.function.BooleanSupplier;
import org.hl7.fhir.r4.model.Bundle;

/**
 * What a sender knows of its earlier tries, and what it is asked while it sends.
 *
 * @param perhaps earlier versions of which some or all may have reached the server unheard of
 * @param settled the moment from which on nothing that was sent before will be carried out any more
 * @param onlyThis whether all that was sent before and not answered says the same as this
 * @param mayWrite asked before every write; whether the sender still has the right to
 * @param answered told after every write that had an answer
 * @param sole asked before people and organisations are created on a server that knows no
 *     conditions; whether nobody else creates such meanwhile
 */
record Past(
    List<Bundle> perhaps,
    Deadline settled,
    boolean onlyThis,
    BooleanSupplier mayWrite,
    Runnable answered,
    BooleanSupplier sole) {

  /** For who keeps no record of tries. */
  static final Past NONE =
      new Past(List.of(), Deadline.in(Duration.ZERO), true, () -> true, () -> {}, () -> true);

  /** For who only reads. */
  static final Past READING =
      new Past(List.of(), Deadline.in(Duration.ZERO), true, () -> false, () -> {}, () -> false);

  Past {
    perhaps = List.copyOf(perhaps);
  }

  /** The same for what is no version of the treatment: earlier versions do not go away by it. */
  Past alone() {
    return new Past(List.of(), settled, onlyThis, mayWrite, answered, sole);
  }
}
