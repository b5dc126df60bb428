package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** One patient who cannot be looked at, and the others of the same recipient. */
class PollTroubleTest extends PollingRig {

  private final List<String> numbers = new ArrayList<>();
  private final List<TreatmentKey> keys = new ArrayList<>();

  /** So many patients delivered and asked for once, in the order in which they are looked at. */
  private void patients(int count) {
    delivered(Databases.H2);
    List<ObjectNode> files = new ArrayList<>(List.of(file));
    while (files.size() < count) {
      ObjectNode other = Parcels.unheardOf();
      files.add(other);
      rig.await(rig.queued(rig.store(other), 1, "hospital"), DeliveryState.DELIVERED);
    }
    assertThat(poll()).isEmpty();
    rows().delivered("hospital").values().forEach(one -> keys.add(one.get(0).key()));
    for (TreatmentKey one : keys) {
      files.stream()
          .filter(each -> TreatmentKey.of(Parcels.read(each)).equals(one))
          .forEach(each -> numbers.add(each.at("/patient/identifier/value").stringValue()));
    }
    assertThat(numbers).hasSize(count);
  }

  private PollRows rows() {
    return new PollRows(rig.database, CurrentCaller.withoutLogin());
  }

  private Optional<Instant> window() {
    return rows().asked("hospital");
  }

  private Patient patient(int which) {
    return records.find(Patient.class, numbers.get(which));
  }

  private void born(int which, String day, String reference) {
    Patient patient = patient(which);
    patient.setBirthDateElement(new DateType(day));
    patient.setGeneralPractitioner(null);
    if (!reference.isEmpty()) {
      patient.addGeneralPractitioner(new Reference(reference));
    }
    records.write(patient);
  }

  private int proposed(int which) {
    return proposals.of(keys.get(which)).size();
  }

  private static boolean isOf(Asked asked, String place) {
    return asked.path().endsWith(place);
  }

  @Test
  void whatMayNotBeReadIsAsIfItWereNotThere() {
    patients(2);
    hospital.first(
        one -> isOf(one, "/Location/7"),
        (one, real) -> Said.of(403, "text/plain", "not in your scopes"));
    born(0, "2013-04-05", "Location/7");
    born(1, "2013-04-05", "");
    assertThat(poll()).isEmpty();
    assertThat(List.of(proposed(0), proposed(1))).containsExactly(1, 1);
  }

  @Test
  void theOthersAreProposedAndTheOneIsLookedAtOnceThatIsPossible() {
    patients(2);
    Optional<Instant> before = window();
    hospital.first(
        4, one -> isOf(one, "/Location/8"), (one, real) -> Said.of(500, "text/plain", "no"));
    born(0, "2013-04-05", "Location/8");
    born(1, "2013-04-05", "");
    assertThat(poll()).contains("500");
    assertThat(List.of(proposed(0), proposed(1))).containsExactly(0, 1);
    assertThat(window()).as("goes on from where it was").isEqualTo(before);
    assertThat(poll()).isEmpty();
    assertThat(List.of(proposed(0), proposed(1))).containsExactly(1, 1);
  }

  @Test
  void whereTheyCannotBeAskedForTogetherEachIsAlone() {
    patients(2);
    String first = "Patient/" + patient(0).getIdElement().getIdPart();
    hospital.first(
        one -> isOf(one, "/CarePlan") && one.query().matches(".*" + first + "(,|&|%2C).*"),
        (one, real) -> Said.of(422, "text/plain", "this one is locked"));
    born(0, "2013-04-05", "");
    born(1, "2013-04-05", "");
    assertThat(poll()).isNotEmpty();
    assertThat(List.of(proposed(0), proposed(1))).containsExactly(0, 1);
  }

  @Test
  void whereNothingIsAnsweredAnyMoreNobodyElseIsAskedFor() {
    patients(3);
    int before = hospital.asked().size();
    for (int i = 0; i < 3; i++) {
      born(i, "2013-04-05", "Location/9");
    }
    boolean[] down = {false};
    hospital.first(
        one -> down[0] || (down[0] = isOf(one, "/Location/9")), (one, real) -> Said.nothing());
    assertThat(poll()).isNotEmpty();
    assertThat(
            hospital.asked().stream().skip(before).filter(one -> isOf(one, "/Location/9")).count())
        .as("one patient's tries, each repeated once by the platform")
        .isLessThanOrEqualTo(8);
  }

  @Test
  void troubleInARoundIsToldAndHoldsBackNoWindow() {
    patients(2);
    Instant before = window().orElseThrow();
    hospital.asked().clear();
    hospital.first(this::isOfTheRound, (one, real) -> Said.of(500, "text/plain", "no rounds here"));
    rig.pause(1_100);
    assertThat(poll()).contains("500");
    assertThat(window().orElseThrow()).as("all that changed was looked at").isAfter(before);
  }

  /** What is looked through for deletions is asked after a third look at what the server is. */
  private boolean isOfTheRound(Asked asked) {
    return isOf(asked, "/Task") && hospital.asked().stream().filter(Asked::isMetadata).count() == 3;
  }

  @Test
  void eachLookHasTheWholeTime() {
    patients(3);
    hospital.first(
        one -> isOf(one, "/Location/7"),
        (one, real) -> {
          Thread.sleep(3_000);
          return real.ask();
        });
    for (int i = 0; i < 3; i++) {
      born(i, "2013-04-05", "Location/7");
    }
    Clock clock = Clock.systemUTC();
    Poller poller =
        new Poller(
            rig.database,
            rig.archive,
            recipients,
            Clients.within(Duration.ofSeconds(8)),
            Parcels.MAPPER,
            PollSettings.DEFAULT,
            new AuditTrail(rig.database, CurrentCaller.withoutLogin(), clock),
            clock);
    assertThat(poller.poll(recipients.named("hospital").orElseThrow())).isEmpty();
    assertThat(List.of(proposed(0), proposed(1), proposed(2))).containsExactly(1, 1, 1);
  }
}
