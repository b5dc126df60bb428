package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.Date;
import java.util.List;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.records.Beyond;
import org.intercusp.exchange.wire.Place;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What is asked for, by whose clock, and what is said of what has no place or can't be read. */
class PollWindowTest extends PollingRig {

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
    String own = Place.of(records.find(Observation.class, "/overjet/rev-2"));
    assertThat(only().content().beyond().stream().map(Beyond::path))
        .containsExactlyInAnyOrder(own + ".note[0]", Place.of(inches), Place.of(early));
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
    String own = Place.of(records.find(Observation.class, "/overjet/rev-2"));
    assertThat(proposal.content().beyond().toString()).contains(own + ".value: expected");
    edit(
        Observation.class,
        "/overjet/rev-2",
        seen -> seen.getValueQuantity().setCode("mm").setUnit("mm"));
    poll();
    assertThat(open()).isEmpty();
  }

  @Test
  void whatIsGoneAsAWholeIsSaidSo() {
    delivered(Databases.H2);
    List.copyOf(records.all()).forEach(records::remove);
    poll();
    assertThat(only().content().beyond().toString())
        .contains("nothing of this treatment any more", "the next delivery brings everything");
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
    settings = new PollSettings(Duration.ofMinutes(2), 20, 0);
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
        .param("later", Clock.systemUTC().instant().plusSeconds(7200).atOffset(ZoneOffset.UTC))
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
