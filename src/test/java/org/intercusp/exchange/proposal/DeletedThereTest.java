package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Date;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.DeliveryReport.Outcome;
import org.intercusp.exchange.records.Survey;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ObjectNode;

/** What a recipient's people deleted is never made again before somebody decided that it may. */
class DeletedThereTest extends PollingRig {

  private static final String OVERJET = "/overjet/rev-2";

  private Observation deleted() {
    Observation one = records.find(Observation.class, OVERJET);
    records.remove(one);
    return one;
  }

  /** Another version that changes something else, queued. */
  private String next(int version) {
    store(version - 1, newest -> ((ObjectNode) newest.at("/diagnosis")).put("overjet", version));
    return rig.queued(key, version, "hospital");
  }

  private boolean isThere() {
    return records.all().stream()
        .flatMap(one -> Token.identifiers(one).stream())
        .anyMatch(one -> one.getValue().endsWith(OVERJET));
  }

  private void decided(Decision decision) {
    assertThat(decision).isInstanceOf(Decision.Done.class);
    assertThat(((Decision.Done) decision).version()).as("the file stays as it is").isNull();
  }

  private String held() {
    delivered(Databases.H2);
    Observation gone = deleted();
    long writes = hospital.writes();
    String next = next(2);
    Delivery held = rig.await(next, DeliveryState.HELD);
    assertThat(held.reason())
        .isEqualTo("Deleted at the recipient's since it was delivered: Observation");
    assertThat(hospital.writes()).isEqualTo(writes);
    assertThat(only().kind()).isEqualTo(Kind.DELETED);
    assertThat(only().base()).isEqualTo(1);
    assertThat(only().content().beyond().get(0).path()).isEqualTo(Place.of(gone));
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.HELD);
    assertThat(only().kind()).as("asked once").isEqualTo(Kind.DELETED);
    return next;
  }

  @ParameterizedTest
  @EnumSource(Databases.class)
  void sentAgainWhereSomebodyDecidesThat(Databases kind) {
    delivered(kind);
    deleted();
    String next = next(2);
    rig.await(next, DeliveryState.HELD);
    decided(proposals.decline(key, only().number()));
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.DELIVERED);
    assertThat(isThere()).isTrue();
    assertThat(records.duplicates()).isZero();
    poll();
    assertThat(open()).isEmpty();

    deleted();
    String again = next(3);
    rig.await(again, DeliveryState.HELD);
    assertThat(only().kind()).as("a decision is on one deletion").isEqualTo(Kind.DELETED);
  }

  @Test
  void leftDeletedWhereSomebodyDecidesThat() {
    String next = held();
    decided(proposals.accept(key, only().number(), 1, NOTHING));
    for (int version = 3; version <= 4; version++) {
      rig.deliveries.retry(next);
      rig.await(next, DeliveryState.DELIVERED);
      assertThat(isThere()).isFalse();
      List<Attempt> tries = rig.deliveries.attempts(next);
      DeliveryReport report = tries.get(tries.size() - 1).report();
      assertThat(report.count(Outcome.LEFT)).isEqualTo(1);
      assertThat(report.count(Outcome.MISSING) + report.count(Outcome.CREATED)).isZero();
      assertThat(references()).noneMatch(one -> one.startsWith("urn:"));
      poll();
      assertThat(open()).isEmpty();
      next = next(version);
    }
  }

  private List<String> references() {
    return records.all().stream()
        .flatMap(one -> Clients.R4.newTerser().getAllResourceReferences(one).stream())
        .map(info -> ((Reference) info.getResourceReference()).getReference())
        .map(String::valueOf)
        .toList();
  }

  @Test
  void whatRefersToItNamesItWhereItIsLeftDeleted() {
    delivered(Databases.H2);
    Resource goal =
        records.all().stream()
            .filter(one -> one.fhirType().equals("Goal"))
            .findFirst()
            .orElseThrow();
    records.remove(goal);
    poll();
    decided(proposals.accept(key, only().number(), 1, NOTHING));
    store(1, newest -> ((ObjectNode) newest.at("/stages/0")).put("startsOn", "2025-03-26"));
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    assertThat(references()).noneMatch(one -> one.startsWith("urn:"));
    String named = Survey.own(goal).orElseThrow().token().value();
    assertThat(records.lastWritten()).contains(named);
  }

  @Test
  void putBackByThemWhatWasLeftDeletedIsKeptUpToDateAgain() {
    delivered(Databases.H2);
    Observation gone = deleted();
    poll();
    decided(proposals.accept(key, only().number(), 1, NOTHING));
    records.write(gone);
    store(1, newest -> ((ObjectNode) newest.at("/reviews/1")).put("overjet", 6));
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    assertThat(records.find(Observation.class, OVERJET).getValueQuantity().getValue())
        .isEqualByComparingTo("6");
    records.remove(records.find(Observation.class, OVERJET));
    rig.await(next(3), DeliveryState.HELD);
  }

  @Test
  void aPollAsksWithoutProposingToTakeItOutOfTheFile() {
    delivered(Databases.H2);
    assertThat(poll()).isEmpty();
    records.all().forEach(one -> one.getMeta().setLastUpdated(new Date(0)));
    Observation gone = deleted();
    assertThat(poll()).isEmpty();
    assertThat(poll()).isEmpty();
    Proposal asked = only();
    assertThat(asked.kind()).isEqualTo(Kind.DELETED);
    assertThat(asked.content().changes()).isEmpty();
    assertThat(asked.content().origins().get(0).digest()).isEmpty();

    gone.setId((String) null);
    records.write(gone);
    assertThat(poll()).isEmpty();
    assertThat(proposals.of(key)).hasSize(1).allMatch(one -> one.state() == State.OVERTAKEN);
    rig.await(next(2), DeliveryState.DELIVERED);
    assertThat(records.duplicates()).isZero();
  }

  @Test
  void theRoundsComeByAllPatientsInTurn() {
    delivered(Databases.H2);
    TreatmentKey other = rig.store(Parcels.unheardOf());
    rig.await(rig.queued(other, 1, "hospital"), DeliveryState.DELIVERED);
    assertThat(poll()).isEmpty();
    records.all().forEach(one -> one.getMeta().setLastUpdated(new Date(0)));
    deleted();
    deleted();
    settings = new PollSettings(Duration.ofMinutes(2), 20, 1);
    for (int polls = 1; polls <= 2; polls++) {
      assertThat(poll()).isEmpty();
      assertThat(proposals.of(key).size() + proposals.of(other).size()).isEqualTo(polls);
    }
    assertThat(proposals.of(key)).hasSize(1);
  }

  @ParameterizedTest
  @ValueSource(strings = {"CarePlan", ""})
  void thePlanOrAllOfIt(String type) {
    delivered(Databases.H2);
    for (Resource one : records.all()) {
      boolean shared = List.of("Patient", "Practitioner", "Organization").contains(one.fhirType());
      if (type.isEmpty() ? !shared : one.fhirType().equals(type)) {
        records.remove(one);
      }
    }
    poll();
    assertThat(only().kind()).isEqualTo(Kind.DELETED);
    String next = next(2);
    rig.await(next, DeliveryState.HELD);
    decided(proposals.decline(key, only().number()));
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.DELIVERED);
    poll();
    assertThat(open()).isEmpty();
    assertThat(records.duplicates()).isZero();
  }

  @Test
  void aServerThatWasEmptiedOrReplacedIsGivenEverything() {
    delivered(Databases.H2);
    int stored = records.stored();
    records.all().forEach(records::remove);
    rig.await(next(2), DeliveryState.DELIVERED);
    assertThat(records.stored()).isGreaterThanOrEqualTo(stored);
    assertThat(open()).isEmpty();

    // Another treatment brought the Patient anew before this one came.
    Resource patient = records.find(org.hl7.fhir.r4.model.Patient.class, "");
    records.all().forEach(records::remove);
    patient.setId((String) null);
    records.write(patient);
    rig.await(next(3), DeliveryState.DELIVERED);
    assertThat(isThere()).isTrue();
    assertThat(open()).noneMatch(one -> one.kind() == Kind.DELETED);
  }
}
