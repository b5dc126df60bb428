package org.intercusp.exchange.proposal;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.queue.LedgerRows;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.Ledger.Deletion;
import org.intercusp.exchange.records.Origin;

/**
 * What a decision means for the next delivery: what a person saw, and accepted or declined, may be
 * written over, and whatever was changed after that holds it still.
 */
final class Decisions {

  private final ProposalRows rows;
  private final LedgerRows ledgers;

  Decisions(ProposalRows rows, LedgerRows ledgers) {
    this.rows = rows;
    this.ledgers = ledgers;
  }

  /** A proposal's state on a resource of ours. */
  private record Seen(int number, State state, Origin origin) {}

  /** Takes in that a proposal was decided, in the decision's transaction. */
  void take(Proposal decided) {
    if (decided.kind() == Kind.DELETED) {
      deletion(decided);
      return;
    }
    List<Proposal> all =
        rows.of(decided.treatment()).stream()
            .filter(one -> one.recipient().equals(decided.recipient()))
            .filter(one -> one.state() != State.OVERTAKEN)
            .toList();
    for (Origin origin : decided.content().origins()) {
      Ledger.Name own = origin.own();
      if (own != null) {
        newest(all, own)
            .ifPresent(
                seen ->
                    ledgers.stored(
                        decided.recipient(), decided.treatment(), own, seen.digest(), seen.left()));
      }
    }
  }

  private void deletion(Proposal decided) {
    Deletion what = decided.state() == State.ACCEPTED ? Deletion.LEFT : Deletion.AGAIN;
    for (Origin origin : decided.content().origins()) {
      Ledger.Name own = origin.own();
      if (own != null) {
        ledgers.deleted(decided.recipient(), decided.treatment(), own, origin.left(), what);
      }
    }
  }

  /**
   * The newest that was seen of a resource. Several proposals may tell of one, each of what was
   * there when it was made: while one of them is open, not everything there has been decided on.
   */
  private static Optional<Origin> newest(List<Proposal> all, Ledger.Name own) {
    List<Seen> of =
        all.stream()
            .flatMap(
                one ->
                    one.content().origins().stream()
                        .filter(origin -> own.equals(origin.own()))
                        .map(origin -> new Seen(one.number(), one.state(), origin)))
            .toList();
    return of.stream().anyMatch(one -> one.state() == State.OPEN)
        ? Optional.empty()
        : of.stream()
            .max(Comparator.comparingInt(Seen::number))
            .map(Seen::origin)
            .filter(origin -> !origin.digest().isEmpty());
  }
}
