package org.intercusp.exchange.queue;

import java.util.List;
import org.intercusp.finding.Finding;

/** What became of the wish to deliver a treatment. */
public sealed interface Queueing {

  /** It is queued. */
  record Queued(Delivery delivery) implements Queueing {}

  /** It was asked for before, for this version and recipient: there is one already. */
  record Existing(Delivery delivery) implements Queueing {}

  /** It may not go to this recipient. */
  record Stopped(String recipient, List<Finding> findings) implements Queueing {
    public Stopped {
      findings = List.copyOf(findings);
    }
  }

  /** There is no recipient with this name. */
  record UnknownRecipient(String name) implements Queueing {}

  /** There is no such treatment, or no such version of it. */
  record NoSuchTreatment() implements Queueing {}
}
