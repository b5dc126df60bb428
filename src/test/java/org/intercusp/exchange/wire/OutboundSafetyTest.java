package org.intercusp.exchange.wire;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.UnknownHostException;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.KeyFiles;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.authorization.Authorization;
import org.intercusp.exchange.authorization.SigningKeys;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A recipient's server that points elsewhere in every way it can; elsewhere nobody knocks. */
class OutboundSafetyTest {

  private final FaultyServer server = new FaultyServer(null);
  private final FaultyServer elsewhere = new FaultyServer(null);
  private final RecordsClient client = Clients.within(Duration.ofSeconds(10));

  @AfterEach
  void end() {
    server.close();
    elsewhere.close();
  }

  private String away() {
    return elsewhere.baseUrl().toString();
  }

  private void everything(Target target) {
    client.reach(target);
    client.fetch(target, "https://harbour-lane.example/p", "P1");
    client.deliver(target, Parcels.bundle(Parcels.unheardOf()), Ledger.NONE);
  }

  @ParameterizedTest
  @ValueSource(ints = {301, 302, 303, 307, 308})
  void redirects(int status) {
    server.fault(
        1,
        FaultyServer.Asked::isWrite,
        (one, real) -> Said.of(status, "text/plain", "").with("Location", away() + "/Patient"));
    new FakeRecords(server);

    everything(new Target(server.baseUrl(), "secret"));

    assertThat(server.asked()).anyMatch(one -> one.authorization().equals("Bearer secret"));
    assertThat(server.writes()).isEqualTo(1);
    assertThat(elsewhere.asked()).isEmpty();
  }

  @Test
  void locationsOfWhatWasWritten() {
    server.always(
        FaultyServer.Asked::isWrite,
        (one, real) ->
            Said.of(
                    201,
                    FaultyServer.FHIR,
                    "{\"resourceType\":\"Bundle\",\"type\":\"transaction-response\",\"entry\":[{"
                        + "\"fullUrl\":\"@/Patient/1\",\"response\":{\"status\":\"201\","
                        + "\"location\":\"@/Patient/1/_history/1\"}}]}".replace("@", away()))
                .with("Location", away() + "/Patient/1/_history/1")
                .with("Content-Location", away() + "/Patient/1/_history/1"));
    new FakeRecords(server);

    everything(new Target(server.baseUrl(), "secret"));

    assertThat(server.writes()).isPositive();
    assertThat(elsewhere.asked()).isEmpty();
  }

  @Test
  void referencesAndAttachmentsOfWhatIsRead() {
    String patient =
        "{\"resourceType\":\"Bundle\",\"type\":\"searchset\",\"entry\":[{\"fullUrl\":"
            + "\"@/Patient/1\",\"resource\":{\"resourceType\":\"Patient\",\"id\":\"1\","
            + "\"implicitRules\":\"@/rules\",\"meta\":{\"profile\":[\"@/profile\"]},"
            + "\"identifier\":[{\"system\":\"https://harbour-lane.example/p\",\"value\":\"P1\"}],"
            + "\"photo\":[{\"url\":\"@/photo.jpg\"}],\"managingOrganization\":{\"reference\":"
            + "\"@/Organization/1\"},\"generalPractitioner\":[{\"reference\":\"@/Practitioner/1\"}]"
            + "}}]}";
    server.always(
        one -> one.path().endsWith("/Patient") && !one.isWrite(),
        (one, real) -> Said.of(200, FaultyServer.FHIR, patient.replace("@", away())));
    new FakeRecords(server);

    everything(new Target(server.baseUrl(), "secret"));

    assertThat(server.asked()).anyMatch(one -> one.path().endsWith("/Patient"));
    assertThat(elsewhere.asked()).isEmpty();
  }

  @Test
  void tokenEndpoints(@TempDir java.nio.file.Path folder) throws Exception {
    SigningKeys keys =
        SigningKeys.read(KeyFiles.file(folder, KeyFiles.key("ES384", "k")), null, null);
    server.always(
        one -> one.path().equals("/token"),
        (one, real) -> Said.of(307, "text/plain", "").with("Location", away() + "/token"));
    server.always(
        one -> one.path().endsWith("smart-configuration"),
        (one, real) ->
            Said.of(200, "application/json", "{\"token_endpoint\":\"" + away() + "/token\"}"));
    new FakeRecords(server);

    for (URI endpoint : new URI[] {server.baseUrl().resolve("/token"), null}) {
      everything(
          new Target(
              server.baseUrl(),
              new Authorization.Backend("us", endpoint, keys, List.of("system/*.rs")),
              null,
              Vicinity.ELSEWHERE_ONLY));
    }

    assertThat(server.asked()).anyMatch(one -> one.path().equals("/token"));
    assertThat(elsewhere.asked()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"127.0.0.1", "::1", "169.254.169.254", "fe80::1", "0.0.0.0", "224.0.0.1"})
  void namesThatLeadHere(String address) {
    Surroundings names = new Surroundings(host -> List.of(at("192.0.2.1"), at(address)));
    Calls careful =
        new Calls(
            Clients.R4,
            Canonicals.RESERVED,
            new Guard(GuardLimits.DEFAULT),
            Clients.settings(Duration.ofSeconds(2)),
            Clock.systemUTC(),
            names);
    URI url = URI.create("http://records.example:" + server.baseUrl().getPort() + "/fhir");

    assertThat(words(careful, Target.of(url))).contains("leads to this machine");
    Target meant = new Target(url, new Authorization.None(), null, Vicinity.THIS_MACHINE_TOO);
    assertThat(words(careful, meant)).doesNotContain("leads to this machine");
    assertThat(words(careful, server.target())).contains("404");
  }

  private static String words(Calls calls, Target target) {
    try {
      calls.to(target, Deadline.in(Duration.ofSeconds(2)), Past.READING).capabilities();
      return "";
    } catch (Trouble e) {
      return e.reason();
    }
  }

  private static InetAddress at(String literal) {
    try {
      return InetAddress.getByName(literal);
    } catch (UnknownHostException e) {
      throw new UncheckedIOException(e);
    }
  }
}
