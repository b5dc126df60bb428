package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.function.Predicate;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Goal;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Practitioner;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.wire.Place;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** What a server does not let us read is named, and the rest is read all the same. */
class FetchForbiddenTest {

  private final FaultyServer server = new FaultyServer(null);
  private final FakeRecords records = new FakeRecords(server);
  private final RecordsClient client = Clients.within(Duration.ofSeconds(30));
  private final ObjectNode file = Parcels.unheardOf();

  @AfterEach
  void stop() {
    server.close();
  }

  private FetchResult fetched(Predicate<Asked> forbidden) {
    client.deliver(server.target(), Parcels.bundle(file), Ledger.NONE);
    server.first(
        forbidden,
        (one, real) -> Said.of(403, FaultyServer.FHIR, "{\"resourceType\":\"OperationOutcome\"}"));
    return client.fetch(
        server.target(),
        file.at("/patient/identifier/system").asString(),
        file.at("/patient/identifier/value").asString());
  }

  @Test
  void aTypeThatMayNotBeSearched() {
    FetchResult.Fetched result =
        (FetchResult.Fetched)
            fetched(one -> one.path().endsWith("/Goal") && !one.query().isEmpty());

    assertThat(result.forbidden()).containsExactly("Goal");
    Bundle only = result.treatments().get(0);
    assertThat(only.getEntry()).anyMatch(one -> one.getResource() instanceof Observation);
    assertThat(only.getEntry())
        .as("other resources refer to them, and each may be read by its id")
        .anyMatch(one -> one.getResource() instanceof Goal);
  }

  @Test
  void aPersonThatMayNotBeRead() {
    String address = Place.of(person());
    FetchResult.Fetched result =
        (FetchResult.Fetched) fetched(one -> one.path().endsWith("/" + address));

    assertThat(result.forbidden()).containsExactly(address);
    assertThat(server.asked().stream().filter(one -> one.path().endsWith("/" + address)))
        .as("once")
        .hasSize(1);
    assertThat(result.treatments().get(0).getEntry()).hasSizeGreaterThan(50);
  }

  private Practitioner person() {
    client.deliver(server.target(), Parcels.bundle(file), Ledger.NONE);
    return records.find(Practitioner.class, file.at("/clinician/identifier/value").asString());
  }

  @Test
  void noneOfThePatientsIsAFailure() {
    FetchResult result = fetched(one -> one.path().endsWith("/Patient"));
    assertThat(((FetchResult.Failed) result).status()).isEqualTo(403);
  }
}
