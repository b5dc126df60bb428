package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.function.Consumer;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.wire.Place;
import org.intercusp.fhir.version.Release;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * A treatment delivered to a hospital whose people then change things, and what is proposed of it.
 */
abstract class PollingRig extends DeliveryRig {

  static final JsonNode NOTHING = new JsonMapper().createObjectNode();

  final FakeRecords records = new FakeRecords(hospital, release());
  final ObjectNode file = Parcels.unheardOf();
  PollSettings settings = PollSettings.DEFAULT;
  Rig rig;
  TreatmentKey key;
  Proposals proposals;

  /** The tests ask themselves. */
  @Override
  public @Nullable Duration pollEvery() {
    return Duration.ofDays(1);
  }

  /** What the hospital speaks. */
  Release release() {
    return Release.R4;
  }

  void delivered(Databases kind) {
    rig = new Rig(kind.fresh());
    key = rig.store(file);
    rig.start();
    proposals =
        new Proposals(
            rig.database, rig.archive, rig.deliveries, trail(Clock.systemUTC()), Clock.systemUTC());
    rig.await(rig.queued(key, 1, "hospital"), DeliveryState.DELIVERED);
  }

  private AuditTrail trail(Clock clock) {
    return new AuditTrail(rig.database, CurrentCaller.withoutLogin(), clock);
  }

  String poll() {
    return poll(Clock.systemUTC());
  }

  String poll(Clock ours) {
    return new Poller(
            rig.database,
            rig.archive,
            recipients,
            Clients.within(Duration.ofSeconds(30)),
            Parcels.MAPPER,
            settings,
            trail(ours),
            ours)
        .poll(recipients.named("hospital").orElseThrow());
  }

  List<Proposal> open() {
    return proposals.of(key).stream().filter(one -> one.state() == State.OPEN).toList();
  }

  Proposal only() {
    assertThat(open()).hasSize(1);
    return open().get(0);
  }

  static Change change(Proposal proposal) {
    assertThat(proposal.content().changes()).hasSize(1);
    return proposal.content().changes().get(0);
  }

  void bornOn(String day) {
    Patient patient = records.find(Patient.class, "");
    patient.setBirthDateElement(new DateType(day));
    records.write(patient);
  }

  Observation overjet(String day, String millimetres) {
    Observation seen = new Observation();
    seen.setStatus(Observation.ObservationStatus.FINAL);
    seen.getCode().addCoding().setSystem("http://loinc.org").setCode("32916-9");
    Patient patient = records.find(Patient.class, "");
    seen.setSubject(new Reference(Place.of(patient)));
    seen.setEffective(new DateTimeType(day));
    seen.addPerformer(new Reference().setDisplay("Dr. Brandt"));
    return records.write(millimetres(seen, millimetres));
  }

  static Observation millimetres(Observation seen, String value) {
    return seen.setValue(
        new Quantity()
            .setValue(new BigDecimal(value))
            .setSystem("http://unitsofmeasure.org")
            .setCode("mm"));
  }

  <R extends org.hl7.fhir.r4.model.Resource> void edit(
      Class<R> type, String end, Consumer<R> edit) {
    R there = records.find(type, end);
    edit.accept(there);
    records.write(there);
  }

  void store(int expected, Consumer<ObjectNode> change) {
    ObjectNode newest =
        (ObjectNode) Placing.JSON.readTree(rig.archive.current(key).orElseThrow().bytes());
    change.accept(newest);
    rig.archive.replace(key, expected, Parcels.canonical(newest).getBytes(StandardCharsets.UTF_8));
  }

  JsonNode now(String path) {
    return Proposals.at(rig.archive.current(key).orElseThrow(), path).orElseThrow();
  }
}
