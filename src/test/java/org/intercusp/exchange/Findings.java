package org.intercusp.exchange;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.records.FetchResult;
import org.intercusp.exchange.wire.Target;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.version.Conversion;
import org.intercusp.fhir.version.Release;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a server's own history says after a schedule.
 *
 * @param duplicates names that more than one resource was ever stored under
 * @param repeated resources with a version that says nothing new
 * @param lost treatments that are not there, or not with their newest content
 * @param unsettled deliveries that ended neither delivered nor overtaken
 */
public record Findings(
    List<String> duplicates, List<String> repeated, List<String> lost, List<String> unsettled) {

  static Findings of(
      Schedule schedule, KeptRecords records, List<Delivery> deliveries, Target target) {
    return new Findings(
        duplicates(records),
        repeated(schedule, records),
        lost(schedule, target),
        unsettled(deliveries));
  }

  List<String> all() {
    List<String> all = new ArrayList<>();
    duplicates.forEach(one -> all.add("twice: " + one));
    repeated.forEach(one -> all.add("written again unchanged: " + one));
    lost.forEach(one -> all.add("lost or old: " + one));
    unsettled.forEach(one -> all.add("not at its end: " + one));
    return all;
  }

  public static List<String> duplicates(KeptRecords records) {
    Map<String, Set<String>> places = new TreeMap<>();
    records
        .history()
        .forEach(
            (address, versions) -> {
              for (Resource version : versions) {
                for (String name : KeptRecords.names(version)) {
                  places.computeIfAbsent(name, key -> new TreeSet<>()).add(address);
                }
              }
            });
    List<String> duplicates = new ArrayList<>();
    places.forEach(
        (name, found) -> {
          if (found.size() > 1) {
            duplicates.add(name + " as " + found);
          }
        });
    return duplicates;
  }

  private static List<String> repeated(Schedule schedule, KeptRecords records) {
    // What is carried out late may come in the middle of a look, which then sees half of it.
    if (schedule.writes().stream().anyMatch(Mishap::isDoneLate)) {
      return List.of();
    }
    Conversion conversion = Conversion.compact(Clients.R4, Canonicals.RESERVED.base());
    List<String> repeated = new ArrayList<>();
    records
        .history()
        .forEach(
            (address, versions) -> {
              String before = "";
              for (Resource version : versions) {
                Resource bare = version.copy();
                bare.setMeta(null);
                String text = new String(conversion.json(bare, Release.R4), UTF_8);
                if (text.equals(before)) {
                  repeated.add(address + " version " + version.getMeta().getVersionId());
                }
                before = text;
              }
            });
    return repeated;
  }

  /** Reads every patient's treatments back from the server and holds them against the newest. */
  static List<String> lost(Schedule schedule, Target target) {
    Map<String, ObjectNode> newest = schedule.newest();
    Map<String, String> there = new HashMap<>();
    List<String> lost = new ArrayList<>();
    Set<String> patients = new TreeSet<>();
    newest.values().forEach(f -> patients.add(f.at("/patient/identifier/value").asString()));
    String system = newest.values().iterator().next().at("/patient/identifier/system").asString();
    for (String patient : patients) {
      FetchResult result = Clients.within(Duration.ofSeconds(30)).fetch(target, system, patient);
      if (result instanceof FetchResult.Fetched fetched) {
        for (Bundle one : fetched.treatments()) {
          put(there, one, lost);
        }
      }
    }
    newest.forEach(
        (treatment, file) -> {
          String found = there.get(treatment);
          if (found == null || !alike(Parcels.canonical(file), found)) {
            lost.add(treatment + difference(Parcels.canonical(file), found));
          }
        });
    return lost;
  }

  /** The same, where 9 and 9.0 are one overjet: such a version changes nothing at the server. */
  private static boolean alike(String wanted, String found) {
    return Parcels.file(wanted.getBytes(UTF_8))
        .equals(
            (one, other) ->
                one.isNumber() && other.isNumber()
                    ? one.decimalValue().compareTo(other.decimalValue())
                    : one.equals(other) ? 0 : 1,
            Parcels.file(found.getBytes(UTF_8)));
  }

  private static String difference(String wanted, @Nullable String found) {
    if (found == null) {
      return "";
    }
    ObjectNode newest = Parcels.file(wanted.getBytes(UTF_8));
    ObjectNode there = Parcels.file(found.getBytes(UTF_8));
    return newest.propertyNames().stream()
        .filter(name -> !newest.path(name).equals(there.path(name)))
        .map(name -> " " + name + " is " + there.path(name) + ", not " + newest.path(name))
        .collect(Collectors.joining(","));
  }

  private static void put(Map<String, String> there, Bundle bundle, List<String> lost) {
    try {
      var treatment = Parcels.MAPPER.fromBundle(bundle).treatment();
      there.put(treatment.id(), Parcels.canonical(treatment));
    } catch (RuntimeException e) {
      lost.add("not to be read back: " + e.getMessage());
    }
  }

  private static List<String> unsettled(List<Delivery> deliveries) {
    List<String> open = new ArrayList<>();
    Map<String, Delivery> newest = ScheduleRun.newest(deliveries);
    for (Delivery one : deliveries) {
      boolean last = newest.get(one.treatment().treatment()).equals(one);
      boolean overtaken =
          !last
              && (one.state() == DeliveryState.HELD
                  || one.state() == DeliveryState.GIVEN_UP && one.reason().startsWith("Overtaken"));
      if (one.state() != DeliveryState.DELIVERED && !overtaken) {
        open.add(
            "%s version %d: %s, %s, %d attempts, changed %s, due %s"
                .formatted(
                    one.treatment().treatment(),
                    one.version(),
                    one.state(),
                    one.reason(),
                    one.attempts(),
                    one.changedAt(),
                    one.dueAt()));
      }
    }
    if (deliveries.isEmpty()) {
      open.add("no delivery at all");
    }
    return open;
  }
}
