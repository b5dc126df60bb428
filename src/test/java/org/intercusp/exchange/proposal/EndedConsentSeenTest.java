package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.Consent;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Notice;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Consent that ends, and what polling makes of it. */
class EndedConsentSeenTest extends PollingRig {

  private final LocalDate today = LocalDate.now(Clock.systemUTC());

  @BeforeEach
  void agreed() {
    owned.set(true);
    consent(file).remove("withdrawnOn");
  }

  private static ObjectNode consent(ObjectNode file) {
    return (ObjectNode) file.at("/patient/consent");
  }

  @Test
  void whatTheHospitalRecordsAndTheClinicAcceptsIsToldToTheOthers() {
    FakeRecords dentist = new FakeRecords(referrer);
    delivered(Databases.H2);
    rig.await(rig.queued(key, 1, "referrer"), DeliveryState.DELIVERED);
    edit(
        Consent.class,
        "",
        one -> {
          LocalDate end = today.minusDays(1);

          one.setStatus(Consent.ConsentState.INACTIVE);
          one.getProvision().getPeriod().getEndElement().setValueAsString(end.toString());
        });

    poll();
    Proposal proposal = only();
    assertThat(change(proposal).path()).isEqualTo("/patient/consent/withdrawnOn");
    assertThat(proposals.accept(key, proposal.number(), proposal.base(), NOTHING))
        .isInstanceOf(Decision.Done.class);

    String told = newestTo("referrer");
    assertThat(rig.await(told, DeliveryState.DELIVERED).reason()).isEqualTo(Notice.TOLD);
    assertThat(dentist.find(Consent.class, "").getStatus())
        .isEqualTo(Consent.ConsentState.INACTIVE);
  }

  private String newestTo(String recipient) {
    return JdbcClient.create(rig.database)
        .sql("select id from delivery where recipient = :to and version = 2")
        .param("to", recipient)
        .query(String.class)
        .single();
  }

  @Test
  void aNoticeBroughtNothingElseOfItsVersion() {
    delivered(Databases.H2);
    ObjectNode next = file.deepCopy();
    ArrayNode reviews = (ArrayNode) next.path("reviews");
    reviews.add(((ObjectNode) reviews.get(reviews.size() - 1).deepCopy()).put("id", "rev-9"));
    consent(next).put("withdrawnOn", today.toString());
    List<Queueing> told =
        new StoringAndQueueing(rig.database, rig.archive, rig.deliveries)
            .replace(key, 1, Parcels.canonical(next).getBytes(StandardCharsets.UTF_8), List.of())
            .deliveries();
    String id = ((Queueing.Queued) told.get(0)).delivery().id();
    assertThat(rig.await(id, DeliveryState.DELIVERED).reason()).isEqualTo(Notice.TOLD);

    assertThat(poll()).isEmpty();
    assertThat(open()).as("that the new review is not there is nobody's change").isEmpty();
  }
}
