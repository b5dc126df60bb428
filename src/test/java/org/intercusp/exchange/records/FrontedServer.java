package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.RecordsServers;
import tools.jackson.databind.node.ObjectNode;

/** A real server with faults and oddities put before it, and a treatment to deliver to it. */
final class FrontedServer implements AutoCloseable {

  private final RecordsServers which =
      RecordsServers.given() ? RecordsServers.GIVEN : RecordsServers.PLAIN;
  final FaultyServer front = new FaultyServer(which.baseUrl());
  final RecordsClient client = Clients.within(Duration.ofSeconds(60));
  final ObjectNode file = Parcels.unheardOf();
  final Bundle bundle = Parcels.bundle(file);

  DeliveryReport delivered() {
    return delivered(bundle.copy(), Ledger.NONE);
  }

  DeliveryReport delivered(Bundle other, Ledger ledger) {
    return delivered(client.deliver(front.target(), other, ledger));
  }

  private static DeliveryReport delivered(DeliveryResult result) {
    assertThat(result).isInstanceOf(DeliveryResult.Delivered.class);
    return ((DeliveryResult.Delivered) result).report();
  }

  /** Every resource is there, once, in one version, and reads back as the file. */
  void assertStoredOnce(DeliveryReport report) {
    assertThat(report.duplicates()).isEmpty();
    assertThat(report.differences()).isEmpty();
    assertThat(report.entries()).hasSameSizeAs(bundle.getEntry());
    if (which != RecordsServers.GIVEN) {
      assertThat(report.entries()).allMatch(entry -> "1".equals(entry.version()));
    }
    assertThat(back()).isEqualTo(Parcels.canonical(file));
  }

  /** The file as the server gives it back. */
  String back() {
    FetchResult result =
        client.fetch(
            front.target(),
            file.at("/patient/identifier/system").asString(),
            file.at("/patient/identifier/value").asString());
    List<Bundle> bundles = ((FetchResult.Fetched) result).treatments();
    assertThat(bundles).hasSize(1);
    return Parcels.canonical(Parcels.MAPPER.fromBundle(bundles.get(0)).treatment());
  }

  @Override
  public void close() {
    front.close();
  }
}
