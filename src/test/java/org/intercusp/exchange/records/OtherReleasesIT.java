package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.RecordsServers;
import org.intercusp.exchange.records.DeliveryReport.Entry;
import org.intercusp.exchange.records.DeliveryReport.Outcome;
import org.intercusp.exchange.records.DeliveryReport.Way;
import org.intercusp.exchange.wire.ClientSettings;
import org.intercusp.exchange.wire.Target;
import org.intercusp.exchange.wire.Token;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.version.Release;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What {@link RecordsServerContractIT} asks of R4 servers, asked of real servers of other releases.
 * What is stored is looked at by requests of the test's own.
 */
@Tag("long")
class OtherReleasesIT {

  private static final JsonMapper JSON = new JsonMapper();

  // Not the short limits of most tests: an R5 server's CapabilityStatement alone has 3.4 MB.
  private final RecordsClient client = Clients.with(ClientSettings.DEFAULT);
  private final HttpClient http = HttpClient.newHttpClient();

  @ParameterizedTest
  @EnumSource(names = {"R4B", "R5"})
  void sameAgainLeavesTheServerAsItIs(RecordsServers which) throws Exception {
    Server server = Server.of(which);
    assertThat(get(server, "metadata").path("fhirVersion").asString())
        .isEqualTo(server.release().version());
    ObjectNode file = Parcels.unheardOf();

    DeliveryReport first = deliver(server, file, Ledger.NONE);
    Map<String, Integer> before = versions(server, first);
    DeliveryReport second = deliver(server, file, Ledger.NONE);
    DeliveryReport third = deliver(server, file, first.ledger());

    assertThat(first.way()).isEqualTo(Way.CONDITIONAL_TRANSACTION);
    assertThat(first.count(Outcome.CREATED)).isEqualTo(first.entries().size()).isGreaterThan(40);
    assertThat(first.differences()).isEmpty();
    assertThat(second.way()).isEqualTo(Way.NOTHING);
    assertThat(third.way()).isEqualTo(Way.NOTHING);
    assertThat(before.values()).as("versions of each resource").containsOnly(1);
    assertThat(versions(server, first)).isEqualTo(before);
    for (Entry entry : first.entries()) {
      assertThat(found(server, entry.type(), named(entry)))
          .as(entry.toString())
          .containsExactly(entry.id());
    }
    assertThat(found(server, "Provenance", Trace.token(Canonicals.RESERVED, first.digest())))
        .as("one for the delivery")
        .hasSize(1);
  }

  @ParameterizedTest
  @EnumSource(names = {"R4B", "R5"})
  void changesInPlaceAndOnlyWhatChanged(RecordsServers which) throws Exception {
    Server server = Server.of(which);
    ObjectNode file = Parcels.unheardOf();
    DeliveryReport first = deliver(server, file, Ledger.NONE);
    ObjectNode changed =
        Parcels.changed(
            file,
            f -> {
              ((ObjectNode) f.at("/reviews/1")).put("overjet", 6);
              ((ObjectNode) f.at("/reviews/0")).remove("maximumOpening");
            });

    DeliveryReport second = deliver(server, changed, Ledger.NONE);

    Entry overjet = entry(second, "/overjet/rev-2");
    assertThat(overjet.outcome()).isEqualTo(Outcome.UPDATED);
    assertThat(overjet.id()).isEqualTo(entry(first, "/overjet/rev-2").id());
    assertThat(stored(server, overjet).at("/valueQuantity/value").asInt()).isEqualTo(6);
    assertThat(second.count(Outcome.CREATED)).isZero();
    assertThat(entry(second, "/maximum-opening/rev-1").outcome()).isEqualTo(Outcome.MARKED);
    Map<String, Integer> versions = versions(server, first);
    Set<String> touched =
        versions.keySet().stream().filter(key -> versions.get(key) > 1).collect(Collectors.toSet());
    Set<String> reported =
        second.entries().stream()
            .filter(e -> e.outcome() == Outcome.UPDATED || e.outcome() == Outcome.MARKED)
            .map(server::address)
            .collect(Collectors.toSet());
    assertThat(touched).isEqualTo(reported);
    assertComesBack(server, changed);
  }

  @ParameterizedTest
  @EnumSource(names = {"R4B", "R5"})
  void marksARemovedReviewWithAndWithoutALedger(RecordsServers which) throws Exception {
    Server server = Server.of(which);
    for (boolean kept : new boolean[] {false, true}) {
      ObjectNode file = Parcels.unheardOf();
      DeliveryReport first = deliver(server, file, Ledger.NONE);
      Ledger ledger = kept ? Ledger.of(first.ledger().lines()) : Ledger.NONE;
      ObjectNode without = Parcels.changed(file, f -> ((ArrayNode) f.path("reviews")).remove(1));

      DeliveryReport second = deliver(server, without, ledger);

      List<Entry> marked =
          second.entries().stream().filter(e -> e.outcome() == Outcome.MARKED).toList();
      assertThat(marked).isNotEmpty().allMatch(e -> e.value().contains("rev-2"));
      assertThat(marked).extracting(Entry::type).contains("Encounter", "Observation");
      for (Entry entry : marked) {
        assertThat(stored(server, entry).path("status").asString()).isEqualTo("entered-in-error");
      }
      assertComesBack(server, without);

      Ledger next = kept ? second.ledger() : Ledger.NONE;
      assertThat(deliver(server, without, next).way()).isEqualTo(Way.NOTHING);
      DeliveryReport restored = deliver(server, file, next);
      assertThat(entry(restored, "/review/rev-2").id())
          .as("the same resource comes back to life")
          .isEqualTo(entry(first, "/review/rev-2").id());
      assertComesBack(server, file);
    }
  }

  @ParameterizedTest
  @EnumSource(names = {"R4B", "R5"})
  void marksARemovedApplianceWithoutALedger(RecordsServers which) throws Exception {
    Server server = Server.of(which);
    ObjectNode file = Parcels.unheardOf();
    DeliveryReport first = deliver(server, file, Ledger.NONE);
    ObjectNode without =
        Parcels.changed(
            file,
            f -> {
              ((ArrayNode) f.path("appliances")).remove(1);
              ((ObjectNode) f.at("/appliances/0/lab")).remove("remakeOf");
            });

    DeliveryReport second = deliver(server, without, Ledger.NONE);

    Set<String> sent =
        Parcels.bundle(without).getEntry().stream()
            .flatMap(one -> Token.identifiers(one.getResource()).stream())
            .map(one -> one.getValue())
            .collect(Collectors.toSet());
    List<String> gone =
        first.entries().stream().map(Entry::value).filter(one -> !sent.contains(one)).toList();
    assertThat(gone).hasSize(2);
    assertThat(second.entries())
        .filteredOn(one -> one.outcome() == Outcome.MARKED)
        .extracting(Entry::value)
        .containsExactlyInAnyOrderElementsOf(gone);
    assertComesBack(server, without);
    assertThat(deliver(server, without, Ledger.NONE).way()).isEqualTo(Way.NOTHING);
  }

  @ParameterizedTest
  @EnumSource(names = {"R4B", "R5"})
  void fetchesTheFileThatWasSent(RecordsServers which) {
    Server server = Server.of(which);
    ObjectNode file = Parcels.unheardOf();
    deliver(server, file, Ledger.NONE);

    assertComesBack(server, file);
    assertThat(client.fetch(server.target(), "https://harbour-lane.example/patients", "nobody"))
        .isInstanceOf(FetchResult.NoSuchPatient.class);
  }

  /** A server and the release it speaks. */
  private record Server(Target target, Release release) {

    static Server of(RecordsServers which) {
      return new Server(Target.of(which.baseUrl()), Release.valueOf(which.name()));
    }

    String address(Entry entry) {
      return release.typeName(entry.type()) + "/" + entry.id();
    }
  }

  private DeliveryReport deliver(Server server, ObjectNode file, Ledger ledger) {
    DeliveryResult result = client.deliver(server.target(), Parcels.bundle(file), ledger);
    assertThat(result).isInstanceOf(DeliveryResult.Delivered.class);
    return ((DeliveryResult.Delivered) result).report();
  }

  private void assertComesBack(Server server, ObjectNode file) {
    FetchResult result =
        client.fetch(
            server.target(),
            file.at("/patient/identifier/system").asString(),
            file.at("/patient/identifier/value").asString());
    assertThat(result).isInstanceOf(FetchResult.Fetched.class);
    List<Bundle> bundles = ((FetchResult.Fetched) result).treatments();
    assertThat(bundles).hasSize(1);
    ReadBack read = Parcels.MAPPER.fromBundle(bundles.get(0));
    assertThat(read.faults()).isEmpty();
    assertThat(Parcels.canonical(read.treatment())).isEqualTo(Parcels.canonical(file));
  }

  private static Entry entry(DeliveryReport report, String end) {
    List<Entry> found =
        report.entries().stream().filter(entry -> entry.value().endsWith(end)).toList();
    assertThat(found).as(end).hasSize(1);
    return found.get(0);
  }

  /** How many versions the server's own history has of each. */
  private Map<String, Integer> versions(Server server, DeliveryReport report) throws Exception {
    Map<String, Integer> versions = new TreeMap<>();
    for (Entry entry : report.entries()) {
      Set<String> distinct = new HashSet<>();
      get(server, server.address(entry) + "/_history")
          .path("entry")
          .forEach(one -> distinct.add(one.at("/resource/meta/versionId").asString()));
      versions.put(server.address(entry), distinct.size());
    }
    return versions;
  }

  /** R4 and R4B search no AdverseEvent by identifier: its tag says the same. */
  private static Token named(Entry entry) {
    String parameter = entry.type().equals("AdverseEvent") ? Token.TAG : Token.IDENTIFIER;
    return new Token(parameter, entry.system(), entry.value());
  }

  private List<String> found(Server server, String type, Token token) throws Exception {
    return get(server, server.release().typeName(type) + "?" + token.search())
        .path("entry")
        .valueStream()
        .map(one -> one.at("/resource/id").asString())
        .toList();
  }

  private JsonNode stored(Server server, Entry entry) throws Exception {
    return get(server, server.address(entry));
  }

  private JsonNode get(Server server, String path) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(server.target() + "/" + path))
            .header("Accept", "application/fhir+json")
            .header("Cache-Control", "no-cache")
            .build();
    HttpResponse<String> answer = http.send(request, HttpResponse.BodyHandlers.ofString());
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    return JSON.readTree(answer.body());
  }
}
