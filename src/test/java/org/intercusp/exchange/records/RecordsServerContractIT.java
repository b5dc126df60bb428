package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.RecordsServers;
import org.intercusp.exchange.records.DeliveryReport.Entry;
import org.intercusp.exchange.records.DeliveryReport.Outcome;
import org.intercusp.exchange.records.DeliveryReport.Way;
import org.intercusp.exchange.wire.ClientSettings;
import org.intercusp.exchange.wire.Target;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.ReadBack;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What every records server must do with us, and we with it. {@code -Drecords.server=URL} puts
 * another server under it. What is stored is looked at by requests of the test's own.
 */
class RecordsServerContractIT {

  private static final String SERVERS = "org.intercusp.exchange.RecordsServers#all";
  private static final String IMPLEMENTATIONS =
      "org.intercusp.exchange.RecordsServers#implementations";
  private static final FhirContext R4 = FhirContext.forR4Cached();
  private static final JsonMapper JSON = new JsonMapper();

  private final RecordsClient client =
      new RecordsClient(
          R4,
          Canonicals.RESERVED,
          new Guard(GuardLimits.DEFAULT),
          ClientSettings.DEFAULT,
          Clock.systemUTC());
  private final HttpClient http = HttpClient.newHttpClient();

  @AfterEach
  void end() {
    RecordsServers.endWhatGrowsSlow();
  }

  @ParameterizedTest
  @MethodSource(SERVERS)
  void sameAgainLeavesTheServerAsItIs(RecordsServers which) throws Exception {
    Target target = Target.of(which.baseUrl());
    ObjectNode file = Parcels.unheardOf();

    long begin = System.nanoTime();
    DeliveryReport first = deliver(target, file, Ledger.NONE);
    long delivered = System.nanoTime();
    Map<String, Integer> before = versions(target, first);
    long again = System.nanoTime();
    DeliveryReport second = deliver(target, file, Ledger.NONE);
    long end = System.nanoTime();
    DeliveryReport third = deliver(target, file, first.ledger());

    System.out.printf(
        "%s: %d resources by %s in %d ms, again in %d ms, %d differences%n",
        which,
        first.entries().size(),
        first.way(),
        (delivered - begin) / 1_000_000,
        (end - again) / 1_000_000,
        first.differences().size());
    first.differences().forEach(System.out::println);
    assertThat(first.count(Outcome.CREATED)).isEqualTo(first.entries().size()).isGreaterThan(40);
    assertThat(first.duplicates()).isEmpty();
    assertThat(second.way()).isEqualTo(Way.NOTHING);
    assertThat(third.way()).isEqualTo(Way.NOTHING);
    assertThat(versions(target, first)).isEqualTo(before);
    assertThat(before.values()).as("versions of each resource").containsOnly(1);
    assertThat(provenances(target, first)).as("one for the delivery").isEqualTo(1);
  }

  @ParameterizedTest
  @MethodSource(SERVERS)
  void changesInPlaceAndOnlyWhatChanged(RecordsServers which) throws Exception {
    Target target = Target.of(which.baseUrl());
    ObjectNode file = Parcels.unheardOf();
    DeliveryReport first = deliver(target, file, Ledger.NONE);
    ObjectNode changed = Parcels.changed(file, RecordsServerContractIT::lessOpening);

    DeliveryReport second = deliver(target, changed, Ledger.NONE);

    Entry overjet = entry(second, "/overjet/rev-2");
    assertThat(overjet.outcome()).isEqualTo(Outcome.UPDATED);
    assertThat(overjet.id()).isEqualTo(entry(first, "/overjet/rev-2").id());
    assertThat(stored(target, overjet).at("/valueQuantity/value").asInt()).isEqualTo(6);
    assertThat(second.count(Outcome.CREATED)).isZero();
    assertThat(entry(second, "/maximum-opening/rev-1").outcome()).isEqualTo(Outcome.MARKED);
    Map<String, Integer> versions = versions(target, first);
    Set<String> touched =
        versions.keySet().stream().filter(key -> versions.get(key) > 1).collect(Collectors.toSet());
    Set<String> reported =
        second.entries().stream()
            .filter(e -> e.outcome() == Outcome.UPDATED || e.outcome() == Outcome.MARKED)
            .map(e -> e.type() + "/" + e.id())
            .collect(Collectors.toSet());
    assertThat(touched).isEqualTo(reported);
    assertComesBack(target, changed, second);
  }

  @ParameterizedTest
  @MethodSource(IMPLEMENTATIONS)
  void marksARemovedReviewWithAndWithoutALedger(RecordsServers which) throws Exception {
    Target target = Target.of(which.baseUrl());
    for (boolean kept : new boolean[] {false, true}) {
      ObjectNode file = Parcels.unheardOf();
      DeliveryReport first = deliver(target, file, Ledger.NONE);
      Ledger ledger = kept ? Ledger.of(first.ledger().lines()) : Ledger.NONE;
      ObjectNode without = Parcels.changed(file, f -> ((ArrayNode) f.path("reviews")).remove(1));

      DeliveryReport second = deliver(target, without, ledger);

      List<Entry> marked =
          second.entries().stream().filter(e -> e.outcome() == Outcome.MARKED).toList();
      assertThat(marked).isNotEmpty().allMatch(e -> e.value().contains("rev-2"));
      assertThat(marked).extracting(Entry::type).contains("Encounter", "Observation");
      for (Entry entry : marked) {
        assertThat(stored(target, entry).path("status").asString()).isEqualTo("entered-in-error");
      }
      assertComesBack(target, without, second);

      Ledger next = kept ? second.ledger() : Ledger.NONE;
      assertThat(deliver(target, without, next).way()).isEqualTo(Way.NOTHING);
      DeliveryReport restored = deliver(target, file, next);
      assertThat(entry(restored, "/review/rev-2").id())
          .as("the same resource comes back to life")
          .isEqualTo(entry(first, "/review/rev-2").id());
      assertComesBack(target, file, restored);
    }
  }

  @ParameterizedTest
  @MethodSource(IMPLEMENTATIONS)
  void fetchesTheFileThatWasSent(RecordsServers which) throws Exception {
    Target target = Target.of(which.baseUrl());
    ObjectNode file = Parcels.unheardOf();
    DeliveryReport report = deliver(target, file, Ledger.NONE);

    assertComesBack(target, file, report);
    assertThat(client.fetch(target, "https://harbour-lane.example/patients", "nobody"))
        .isInstanceOf(FetchResult.NoSuchPatient.class);
  }

  @ParameterizedTest
  @MethodSource(IMPLEMENTATIONS)
  void leavesAPatientOfTheServersAlone(RecordsServers which) throws Exception {
    Target target = Target.of(which.baseUrl());
    ObjectNode file = Parcels.unheardOf();
    String identifier = file.at("/patient/identifier/value").asString();
    String theirs =
        "{\"resourceType\":\"Patient\",\"identifier\":[{\"system\":\"%s\",\"value\":\"%s\"}],"
                .formatted(file.at("/patient/identifier/system").asString(), identifier)
            + "\"name\":[{\"family\":\"Ferreira\",\"given\":[\"Noé\"]}],"
            + "\"birthDate\":\"2013-05-05\"}";
    HttpRequest create =
        HttpRequest.newBuilder(URI.create(target + "/Patient"))
            .header("Content-Type", "application/fhir+json")
            .POST(HttpRequest.BodyPublishers.ofString(theirs))
            .build();
    assertThat(http.send(create, HttpResponse.BodyHandlers.ofString()).statusCode()).isEqualTo(201);

    DeliveryReport report = deliver(target, file, Ledger.NONE);

    Entry patient =
        report.entries().stream().filter(e -> e.type().equals("Patient")).findFirst().orElseThrow();
    assertThat(patient.outcome()).isEqualTo(Outcome.KEPT);
    assertThat(stored(target, patient).path("birthDate").asString()).isEqualTo("2013-05-05");
    assertThat(report.differences())
        .filteredOn(d -> d.type().equals("Patient"))
        .extracting(DeliveryReport.Difference::path)
        .contains("Patient.birthDate");
    assertThat(deliver(target, file, Ledger.NONE).way()).isEqualTo(Way.NOTHING);
  }

  @ParameterizedTest
  @MethodSource(IMPLEMENTATIONS)
  void manyAtOnceForOnePatientStoreOneOfEach(RecordsServers which) throws Exception {
    Target target = Target.of(which.baseUrl());
    ObjectNode file = Parcels.unheardOf();
    Bundle bundle = Parcels.bundle(file);

    List<DeliveryResult> results =
        Stream.generate(() -> bundle).limit(4).toList().parallelStream()
            .map(one -> client.deliver(target, one.copy(), Ledger.NONE))
            .toList();

    assertThat(results).allMatch(DeliveryResult.Delivered.class::isInstance);
    DeliveryReport last = deliver(target, file, Ledger.NONE);
    assertThat(last.duplicates()).isEmpty();
    assertThat(versions(target, last).values()).containsOnly(1);
  }

  private DeliveryReport deliver(Target target, ObjectNode file, Ledger ledger) {
    DeliveryResult result = client.deliver(target, Parcels.bundle(file), ledger);
    assertThat(result).isInstanceOf(DeliveryResult.Delivered.class);
    return ((DeliveryResult.Delivered) result).report();
  }

  /** To the letter, unless the server is known to lose the precision of numbers. */
  private void assertComesBack(Target target, ObjectNode file, DeliveryReport report) {
    String back = back(target, file);
    String sent = Parcels.canonical(file);
    List<DeliveryReport.Difference> lost = report.differences();
    if (lost.isEmpty()) {
      assertThat(back).isEqualTo(sent);
    } else {
      assertThat(lost)
          .allMatch(one -> Double.valueOf(one.sent()).equals(Double.valueOf(one.stored())));
      assertThat(back.replaceAll("(\\.\\d*?)0+(?=[,}\\]])", "$1").replaceAll("\\.(?=[,}\\]])", ""))
          .isEqualTo(
              sent.replaceAll("(\\.\\d*?)0+(?=[,}\\]])", "$1").replaceAll("\\.(?=[,}\\]])", ""));
    }
  }

  private String back(Target target, ObjectNode file) {
    FetchResult result =
        client.fetch(
            target,
            file.at("/patient/identifier/system").asString(),
            file.at("/patient/identifier/value").asString());
    assertThat(result).isInstanceOf(FetchResult.Fetched.class);
    List<Bundle> bundles = ((FetchResult.Fetched) result).treatments();
    assertThat(bundles).hasSize(1);
    ReadBack read = Parcels.MAPPER.fromBundle(bundles.get(0));
    assertThat(read.faults()).isEmpty();
    return Parcels.canonical(read.treatment());
  }

  private static void lessOpening(ObjectNode file) {
    ((ObjectNode) file.at("/reviews/1")).put("overjet", 6);
    ((ObjectNode) file.at("/reviews/0")).remove("maximumOpening");
  }

  private static Entry entry(DeliveryReport report, String end) {
    List<Entry> found =
        report.entries().stream().filter(entry -> entry.value().endsWith(end)).toList();
    assertThat(found).as(end).hasSize(1);
    return found.get(0);
  }

  private Map<String, Integer> versions(Target target, DeliveryReport report) throws Exception {
    Map<String, Integer> versions = new TreeMap<>();
    for (Entry entry : report.entries()) {
      String address = entry.type() + "/" + entry.id();
      JsonNode history = get(URI.create(target + "/" + address + "/_history"));
      Set<String> distinct = new HashSet<>();
      history
          .path("entry")
          .forEach(one -> distinct.add(one.at("/resource/meta/versionId").asString()));
      versions.put(address, distinct.size());
    }
    return versions;
  }

  private int provenances(Target target, DeliveryReport report) throws Exception {
    String token = Trace.token(Canonicals.RESERVED, report.digest()).search();
    JsonNode found = get(URI.create(target + "/Provenance?" + token));
    List<JsonNode> entries = new ArrayList<>();
    found.path("entry").forEach(entries::add);
    return (int)
        entries.stream()
            .filter(entry -> entry.at("/resource/meta/tag").toString().contains(report.digest()))
            .count();
  }

  private JsonNode stored(Target target, Entry entry) throws Exception {
    return get(URI.create(target + "/" + entry.type() + "/" + entry.id()));
  }

  private JsonNode get(URI url) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(url)
            .header("Accept", "application/fhir+json")
            .header("Cache-Control", "no-cache")
            .build();
    HttpResponse<String> answer = http.send(request, HttpResponse.BodyHandlers.ofString());
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    return JSON.readTree(answer.body());
  }
}
