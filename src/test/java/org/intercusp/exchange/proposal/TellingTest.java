package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.util.List;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Ending;
import org.intercusp.exchange.queue.Notice;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.records.Ledger;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;

/** What a delivery that came to its end makes of questions that stand open. */
class TellingTest extends DeliveryRig {

  private static Ending delivered(String reason) {
    return new Ending(DeliveryState.DELIVERED, reason, 200, "", null, null, null);
  }

  private static Ledger.Line deleted(String value) {
    return new Ledger.Line(
        "Observation", "identifier", "urn:s", value, "9", "", "", false, Ledger.Deletion.UNDECIDED);
  }

  @Test
  void onlyADeliveryOfTheWholeShowsThatWhatWasDeletedIsThereAgain() {
    Rig rig = new Rig(Databases.H2.fresh());
    TreatmentKey key = rig.store(Parcels.unheardOf());
    CurrentCaller callers = CurrentCaller.withoutLogin();
    AuditTrail trail = new AuditTrail(rig.database, callers, Clock.systemUTC());
    ProposalRows rows = new ProposalRows(rig.database, callers);
    Offering offering = new Offering(rows, trail, Clock.systemUTC());
    for (String recipient : List.of("hospital", "referrer")) {
      offering.deleted(
          new Offering.Subject(recipient, key, 1, new JsonMapper().createObjectNode()),
          List.of(deleted("overjet")));
    }
    Delivery delivery = rig.deliveries.find(rig.queued(key, 1, "hospital")).orElseThrow();
    Recipient hospital = recipients.named("hospital").orElseThrow();
    Telling telling = new Telling(rig.database, trail, Clock.systemUTC());

    assertThat(telling.begins(delivery, delivered(Notice.TOLD))).isFalse();
    telling.tell(delivery, hospital, delivered(Notice.TOLD));
    assertThat(rows.of(key)).extracting(Proposal::state).containsOnly(State.OPEN);

    assertThat(telling.begins(delivery, delivered(""))).isTrue();
    telling.tell(delivery, hospital, delivered(""));
    assertThat(rows.of(key))
        .extracting(one -> one.recipient() + " " + one.state())
        .containsExactlyInAnyOrder("hospital OVERTAKEN", "referrer OPEN");
  }
}
