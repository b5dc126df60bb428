package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.Parcels;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.version.Release;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.node.ObjectNode;

/** A server is spoken to in the release that its CapabilityStatement names. */
class OtherReleasesTest {

  @ParameterizedTest
  @EnumSource
  void isDeliveredToOnceAndFetchedFrom(Release release) {
    try (FaultyServer server = new FaultyServer(null)) {
      FakeRecords records = new FakeRecords(server, release);
      RecordsClient client = Clients.within(Duration.ofSeconds(60));
      ObjectNode file = Parcels.unheardOf();
      Bundle bundle = Parcels.bundle(file);

      DeliveryResult first = client.deliver(server.target(), bundle.copy(), Ledger.NONE);

      assertThat(first).isInstanceOf(DeliveryResult.Delivered.class);
      assertThat(records.stored()).isEqualTo(bundle.getEntry().size() + 1);
      assertThat(records.lastWritten().contains("\"DeviceUsage\""))
          .isEqualTo(release == Release.R5);
      long writes = server.writes();

      DeliveryResult second = client.deliver(server.target(), bundle.copy(), Ledger.NONE);

      assertThat(second).isInstanceOf(DeliveryResult.Delivered.class);
      assertThat(server.writes()).as("nothing has changed").isEqualTo(writes);
      assertThat(records.mostVersions()).isEqualTo(1);

      String system = file.at("/patient/identifier/system").stringValue();
      String value = file.at("/patient/identifier/value").stringValue();
      FetchResult fetched = client.fetch(server.target(), system, value);
      assertThat(fetched).isInstanceOf(FetchResult.Fetched.class);
      List<Bundle> treatments = ((FetchResult.Fetched) fetched).treatments();
      assertThat(treatments).hasSize(1);
      ReadBack back = Parcels.MAPPER.fromBundle(treatments.get(0));
      assertThat(back.faults()).isEmpty();
      assertThat(Parcels.canonical(back.treatment())).isEqualTo(Parcels.canonical(file));
    }
  }
}
