package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.Date;
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
import org.intercusp.exchange.Proposal.Beyond;
import org.intercusp.exchange.Proposal.Change;
import org.intercusp.exchange.Proposal.Kind;
import org.intercusp.exchange.Proposal.State;
import org.intercusp.exchange.Proposals.Decision;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** What a recipient's people change comes back as proposals, each once, and is decided on. */
class PollingTest extends DeliveryRig {

  private static final JsonNode NOTHING = new JsonMapper().createObjectNode();

  private final FakeRecords records = new FakeRecords(hospital);
  private final ObjectNode file = Parcels.unheardOf();
  private Rig rig;
  private TreatmentKey key;
  private Proposals proposals;

  private void delivered(Databases kind) {
    rig = new Rig(kind.fresh());
    key = rig.store(file);
    rig.start();
    proposals =
        new Proposals(rig.database, rig.archive, trail(Clock.systemUTC()), Clock.systemUTC());
    rig.await(rig.queued(key, 1, "hospital"), DeliveryState.DELIVERED);
  }

  private AuditTrail trail(Clock clock) {
    return new AuditTrail(rig.database, CurrentCaller.withoutLogin(), clock);
  }

  private String poll() {
    return poll(Clock.systemUTC());
  }

  private String poll(Clock ours) {
    return new Poller(
            rig.database,
            rig.archive,
            recipients,
            Clients.within(Duration.ofSeconds(30)),
            Parcels.MAPPER,
            PollSettings.DEFAULT,
            trail(ours),
            ours)
        .poll(recipients.named("hospital").orElseThrow());
  }

  private List<Proposal> open() {
    return proposals.of(key).stream().filter(one -> one.state() == State.OPEN).toList();
  }

  private Proposal only() {
    assertThat(open()).hasSize(1);
    return open().get(0);
  }

  private static Change change(Proposal proposal) {
    assertThat(proposal.content().changes()).hasSize(1);
    return proposal.content().changes().get(0);
  }

  private void bornOn(String day) {
    Patient patient = records.find(Patient.class, "");
    patient.setBirthDateElement(new DateType(day));
    records.write(patient);
  }

  private Observation overjet(String day, String millimetres) {
    Observation seen = new Observation();
    seen.setStatus(Observation.ObservationStatus.FINAL);
    seen.getCode().addCoding().setSystem("http://loinc.org").setCode("32916-9");
    Patient patient = records.find(Patient.class, "");
    seen.setSubject(new Reference(Plan.address(patient)));
    seen.setEffective(new DateTimeType(day));
    seen.addPerformer(new Reference().setDisplay("Dr. Brandt"));
    return records.write(millimetres(seen, millimetres));
  }

  private static Observation millimetres(Observation seen, String value) {
    return seen.setValue(
        new Quantity()
            .setValue(new BigDecimal(value))
            .setSystem("http://unitsofmeasure.org")
            .setCode("mm"));
  }

  private <R extends org.hl7.fhir.r4.model.Resource> void edit(
      Class<R> type, String end, Consumer<R> edit) {
    R there = records.find(type, end);
    edit.accept(there);
    records.write(there);
  }

  private void store(int expected, Consumer<ObjectNode> change) {
    ObjectNode newest =
        (ObjectNode) Placing.JSON.readTree(rig.archive.current(key).orElseThrow().bytes());
    change.accept(newest);
    rig.archive.replace(
        key, expected, Parcels.canonical(newest).getBytes(StandardCharsets.UTF_8));
  }

  private JsonNode now(String path) {
    return Proposals.at(rig.archive.current(key).orElseThrow(), path).orElseThrow();
  }

  @ParameterizedTest
  @EnumSource(Databases.class)
  void whatWeWroteOurselvesProposesNothing(Databases kind) {
    delivered(kind);
    assertThat(poll()).isEmpty();
    store(1, newest -> ((ObjectNode) newest.at("/diagnosis")).put("overjet", 8.5));
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    store(2, newest -> ((ObjectNode) newest.at("/diagnosis")).put("overjet", 8));
    assertThat(poll()).isEmpty();
    assertThat(proposals.of(key)).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(Databases.class)
  void aCorrectedBirthDateIsProposedOnceAcceptedAndDeliveredWithoutConflict(Databases kind) {
    delivered(kind);
    poll();
    bornOn("2013-04-05");
    assertThat(poll()).isEmpty();
    assertThat(poll()).isEmpty();

    Proposal proposal = only();
    assertThat(change(proposal).path()).isEqualTo("/patient/birthDate");
    assertThat(change(proposal).before().asString()).isEqualTo("2013-05-04");
    assertThat(change(proposal).after().asString()).isEqualTo("2013-04-05");
    assertThat(proposal.content().origins().get(0).version()).isEqualTo("2");
    assertThat(proposal.content().origins().get(0).changedAt()).isNotNull();

    store(1, newest -> newest.put("asOf", "2026-03-21"));
    assertThat(proposals.accept(key, proposal.number(), 1, NOTHING))
        .isInstanceOf(Decision.Stale.class);
    assertThat(now("/patient/birthDate").asString()).isEqualTo("2013-05-04");
    Decision done = proposals.accept(key, proposal.number(), 2, NOTHING);
    assertThat(((Decision.Done) done).version().version()).isEqualTo(3);
    assertThat(now("/patient/birthDate").asString()).isEqualTo("2013-04-05");
    assertThat(proposals.accept(key, proposal.number(), 3, NOTHING))
        .isInstanceOf(Decision.Closed.class);
    poll();
    rig.await(rig.queued(key, 3, "hospital"), DeliveryState.DELIVERED);
    poll();
    assertThat(proposals.of(key)).hasSize(1).allMatch(one -> one.state() == State.ACCEPTED);
  }

  @Test
  void aDeclinedOneComesAgainOnlyWithOtherContent() {
    delivered(Databases.H2);
    bornOn("2013-04-05");
    poll();
    proposals.decline(key, only().number());
    poll();
    edit(Patient.class, "", patient -> patient.addTelecom().setValue("+44 1632 960111"));
    poll();
    assertThat(open()).noneMatch(one -> one.kind() == Kind.CHANGE);
    bornOn("2013-04-06");
    poll();
    assertThat(open()).filteredOn(one -> one.kind() == Kind.CHANGE).hasSize(1);
    bornOn("2013-05-04");
    poll();
    assertThat(open()).noneMatch(one -> one.kind() == Kind.CHANGE);
    bornOn("2013-04-05");
    poll();
    assertThat(open()).filteredOn(one -> one.kind() == Kind.CHANGE).hasSize(1);
    assertThat(proposals.of(key).stream().map(Proposal::state))
        .contains(State.DECLINED, State.OVERTAKEN, State.OPEN);
  }

  @Test
  void aNewOverjetBecomesAReviewThatWhoeverAcceptsCompletes() {
    delivered(Databases.H2);
    poll();
    Observation seen = overjet("2026-05-03T10:30:00Z", "5.5");
    poll();

    Change change = change(only());
    assertThat(change.path()).isEqualTo("/reviews/hospital-2026-05-03");
    assertThat(change.after().path("overjet").decimalValue()).isEqualByComparingTo("5.5");
    assertThat(change.after().path("seenBy").asString()).isEqualTo("Dr. Brandt");
    assertThat(change.after().path("stageId").asString()).isEqualTo("active");
    assertThat(change.lacking())
        .containsExactly("overbite", "molarRelation/right", "molarRelation/left");
    assertThat(only().content().beyond())
        .containsExactly(new Beyond(Plan.address(seen) + ".performer[0]", "Dr. Brandt"));

    int number = only().number();
    assertThat(proposals.accept(key, number, 1, NOTHING)).isInstanceOf(Decision.Unreadable.class);
    ObjectNode supplied = new JsonMapper().createObjectNode().put("overbite", 3).put("overjet", 1);
    supplied.putObject("molarRelation").put("right", 2).put("left", 2.5);
    assertThat(proposals.accept(key, number, 1, supplied)).isInstanceOf(Decision.Done.class);
    assertThat(now("/reviews/hospital-2026-05-03/overjet").decimalValue())
        .isEqualByComparingTo("5.5");
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    poll();
    assertThat(open()).isEmpty();

    records.write(millimetres(seen, "5"));
    poll();
    assertThat(change(only()).path()).isEqualTo("/reviews/hospital-2026-05-03/overjet");
    store(2, newest -> ((ObjectNode) newest.at("/reviews/2")).put("overjet", 5));
    poll();
    assertThat(open()).isEmpty();
  }

  @Test
  void aValueCorrectedInOurOwnObservationIsNoConflictOnceAccepted() {
    delivered(Databases.H2);
    edit(Observation.class, "/overjet/rev-2", seen -> millimetres(seen, "6.5"));
    edit(Observation.class, "/overbite/rev-2", seen -> millimetres(seen, "1"));
    poll();
    List<Proposal> both = open();
    assertThat(both.stream().map(PollingTest::change).map(Change::path))
        .containsExactlyInAnyOrder("/reviews/rev-2/overjet", "/reviews/rev-2/overbite");

    Proposal overjet =
        both.stream().filter(one -> change(one).path().endsWith("overjet")).findFirst().get();
    assertThat(proposals.accept(key, overjet.number(), 1, NOTHING))
        .isInstanceOf(Decision.Done.class);
    store(2, newest -> ((ObjectNode) newest.at("/reviews/1")).put("overjet", 6));
    rig.await(rig.queued(key, 3, "hospital"), DeliveryState.DELIVERED);
    assertThat(records.find(Observation.class, "/overjet/rev-2").getValueQuantity().getValue())
        .isEqualByComparingTo("6");

    // The one that nobody accepted: a change of ours on top of theirs is held, as ever.
    store(3, newest -> ((ObjectNode) newest.at("/reviews/1")).put("overbite", 1.5));
    Delivery held = rig.await(rig.queued(key, 4, "hospital"), DeliveryState.HELD);
    assertThat(held.reason()).contains("Changed at the recipient's");
  }

  @Test
  void whatHasNoPlaceIsListedByItsPathOnce() {
    delivered(Databases.H2);
    edit(
        Observation.class,
        "/overjet/rev-2",
        seen -> seen.addNote().setText("Measured again at the hospital"));
    Observation inches = overjet("2026-05-03", "5");
    inches.getValueQuantity().setCode("[in_i]");
    records.write(inches);
    Observation early = overjet("2020-05-03", "5");
    poll();
    poll();
    assertThat(only().kind()).isEqualTo(Kind.BEYOND);
    String own = Plan.address(records.find(Observation.class, "/overjet/rev-2"));
    assertThat(only().content().beyond().stream().map(Beyond::path))
        .containsExactlyInAnyOrder(
            own + ".note[0]", Plan.address(inches), Plan.address(early));
    assertThat(proposals.accept(key, only().number(), 1, NOTHING))
        .isInstanceOf(Decision.Done.class);
    assertThat(rig.archive.current(key).orElseThrow().version()).isEqualTo(1);
  }

  @Test
  void whatCanNoLongerBeReadIsSaidByPath() {
    delivered(Databases.H2);
    edit(
        Observation.class,
        "/overjet/rev-2",
        seen -> seen.getValueQuantity().setCode("cm").setUnit("cm"));
    poll();
    poll();
    Proposal proposal = only();
    assertThat(proposal.kind()).isEqualTo(Kind.UNREADABLE);
    String own = Plan.address(records.find(Observation.class, "/overjet/rev-2"));
    assertThat(proposal.content().beyond().toString()).contains(own + ".value: expected");
    edit(
        Observation.class,
        "/overjet/rev-2",
        seen -> seen.getValueQuantity().setCode("mm").setUnit("mm"));
    poll();
    assertThat(open()).isEmpty();
  }

  @Test
  void theClockThatCountsIsTheRecipients() {
    delivered(Databases.H2);
    for (Duration skew : List.of(Duration.ofDays(2), Duration.ofDays(-2))) {
      Clock ours = Clock.offset(Clock.systemUTC(), skew);
      poll(ours);
      bornOn(skew.isNegative() ? "2013-04-05" : "2013-04-04");
      poll(ours);
      assertThat(change(only()).after().asString())
          .isEqualTo(skew.isNegative() ? "2013-04-05" : "2013-04-04");
    }
  }

  @Test
  void onlyWhatWasTouchedIsLookedAtAndAllWhereTheirClockWasSetBack() {
    delivered(Databases.H2);
    poll();
    Patient patient = records.find(Patient.class, "");
    records.all().forEach(one -> one.getMeta().setLastUpdated(new Date(0)));
    patient.setBirthDateElement(new DateType("2013-04-05"));
    records.write(patient).getMeta().setLastUpdated(new Date(0));
    int before = hospital.asked().size();
    poll();
    assertThat(open()).as("written before the window").isEmpty();
    assertThat(hospital.asked().size() - before).as("questions").isLessThan(25);
    assertThat(hospital.asked().toString()).contains("_lastUpdated=ge");

    JdbcClient.create(rig.database)
        .sql("update recipient_poll set server_time = :later")
        .param("later", DeliveryRows.at(Clock.systemUTC().instant().plusSeconds(7200)))
        .update();
    poll();
    assertThat(change(only()).path()).isEqualTo("/patient/birthDate");
  }

  @Test
  void aPageElsewhereOrAFaultIsAskedForAgain() {
    delivered(Databases.H2);
    poll();
    bornOn("2013-04-05");
    FaultyServer elsewhere = new FaultyServer(null);
    hospital.first(
        1,
        one -> one.path().endsWith("/CarePlan"),
        (one, real) ->
            FaultyServer.Said.of(
                200,
                FaultyServer.FHIR,
                """
                {"resourceType":"Bundle","type":"searchset","link":[
                {"relation":"next","url":"%s/CarePlan?page=2"}]}"""
                    .formatted(elsewhere.baseUrl())));
    assertThat(poll()).contains("another host");
    assertThat(elsewhere.asked()).isEmpty();
    elsewhere.close();
    assertThat(open()).isEmpty();
    assertThat(poll()).isEmpty();
    assertThat(change(only()).path()).isEqualTo("/patient/birthDate");
  }
}
