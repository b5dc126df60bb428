package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Provenance;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.Parcels;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.fhir.version.Release;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.node.ObjectNode;

/** A sender with a base of its own leaves its trace under it and reads back what it sent. */
class OwnBaseTest {

  private static final Canonicals OWN = new Canonicals("https://harbour-lane.example/fhir");
  private static final TreatmentMapper MAPPER = new TreatmentMapper(OWN);

  @ParameterizedTest
  @EnumSource
  void isDeliveredOnceAndFetchedBack(Release release) {
    try (FaultyServer server = new FaultyServer(null)) {
      FakeRecords records = new FakeRecords(server, release, OWN);
      RecordsClient client =
          new RecordsClient(
              Clients.R4,
              OWN,
              new Guard(GuardLimits.DEFAULT),
              Clients.settings(Duration.ofSeconds(60)),
              Clock.systemUTC());
      ObjectNode file = Parcels.unheardOf();
      Bundle bundle =
          MAPPER.toBundle(
              Parcels.read(file), LocalDate.of(2026, 9, 1), List.of(), BundleForm.TRANSACTION);

      assertThat(client.deliver(server.target(), bundle.copy(), Ledger.NONE))
          .isInstanceOf(DeliveryResult.Delivered.class);
      long writes = server.writes();
      client.deliver(server.target(), bundle.copy(), Ledger.NONE);

      assertThat(server.writes()).as("nothing has changed").isEqualTo(writes);
      assertThat(records.all())
          .filteredOn(Provenance.class::isInstance)
          .singleElement()
          .matches(trace -> trace.getMeta().getTagFirstRep().getSystem().equals(OWN.delivery()));
      String system = file.at("/patient/identifier/system").stringValue();
      String value = file.at("/patient/identifier/value").stringValue();
      List<Bundle> found =
          ((FetchResult.Fetched) client.fetch(server.target(), system, value)).treatments();
      assertThat(Parcels.canonical(MAPPER.fromBundle(found.get(0)).treatment()))
          .isEqualTo(Parcels.canonical(file));
    }
  }
}
