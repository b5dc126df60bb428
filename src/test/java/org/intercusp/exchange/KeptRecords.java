package org.intercusp.exchange;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.version.Conversion;
import org.intercusp.fhir.version.Release;

/**
 * A records server that keeps every version of every resource it ever took, in the order in which
 * it took them. It refuses nothing but a condition that does not hold, and where its manner knows
 * no conditions it stores whatever comes, as often as it comes.
 */
public final class KeptRecords {

  /** What such a server offers. */
  public enum Manner {
    /** Transactions whose entries may have conditions. */
    CONDITIONAL("{\"code\":\"transaction\"},{\"code\":\"batch\"}"),
    /** Transactions, and conditions are not looked at. */
    TRANSACTION("{\"code\":\"transaction\"}"),
    /** Batches only. */
    BATCH("{\"code\":\"batch\"}"),
    /** One resource at a time. */
    SINGLE("");

    private final String interactions;

    Manner(String interactions) {
      this.interactions = interactions;
    }

    /** Whether several questions may be asked at once. */
    boolean takesBatches() {
      return interactions.contains("batch");
    }
  }

  private static final List<String> TYPES =
      List.of(
          ("AdverseEvent AllergyIntolerance Appointment CarePlan CareTeam Condition Consent"
                  + " DetectedIssue Device DeviceRequest DeviceUseStatement DocumentReference"
                  + " Encounter Goal ImagingStudy Observation Organization Patient Practitioner"
                  + " PractitionerRole Procedure Provenance ServiceRequest Task")
              .split(" "));

  private final Manner manner;
  private final Conversion conversion = Conversion.compact(Clients.R4, Canonicals.RESERVED.base());
  private final Map<String, List<Resource>> history = new LinkedHashMap<>();
  private final Map<String, String> texts = new HashMap<>();
  private int ids;

  public KeptRecords(Manner manner) {
    this.manner = manner;
  }

  /** A condition that does not hold. */
  private static final class Unmet extends Exception {
    private static final long serialVersionUID = 1L;
  }

  /** What a server without faults of its own answers. */
  public synchronized Said answer(Asked asked) {
    if (asked.isMetadata()) {
      return Said.of(200, FaultyServer.FHIR, statement());
    }
    try {
      return switch (asked.method()) {
        case "GET" -> asked.query().isEmpty() ? read(asked) : found(asked);
        case "POST" -> asked.path().endsWith("/fhir") ? bundle(asked) : created(asked);
        default -> updated(asked);
      };
    } catch (Unmet e) {
      return Said.of(412, FaultyServer.FHIR, "{\"resourceType\":\"OperationOutcome\"}");
    }
  }

  private String statement() {
    StringBuilder types = new StringBuilder();
    for (String type : TYPES) {
      types
          .append(types.length() == 0 ? "" : ",")
          .append("{\"type\":\"%s\"".formatted(type))
          .append(
              ",\"conditionalCreate\":%1$s,\"conditionalUpdate\":%1$s}".formatted(conditions()));
    }
    return ("{\"resourceType\":\"CapabilityStatement\",\"status\":\"active\",\"kind\":\"instance\","
            + "\"fhirVersion\":\"4.0.1\",\"format\":[\"json\"],\"rest\":[{\"mode\":\"server\","
            + "\"interaction\":[%s],\"resource\":[%s]}]}")
        .formatted(manner.interactions, types);
  }

  private boolean conditions() {
    return manner == Manner.CONDITIONAL;
  }

  private Said read(Asked asked) {
    String text = texts.get(asked.path().replaceFirst("^/fhir/", ""));
    return text == null
        ? Said.of(404, FaultyServer.FHIR, "{\"resourceType\":\"OperationOutcome\"}")
        : Said.of(200, FaultyServer.FHIR, text);
  }

  private Bundle page(String url) {
    String[] sides = url.split("\\?", 2);
    return (Bundle) conversion.fromJson(found(sides[0], sides[1]), Release.R4);
  }

  private Said found(Asked asked) {
    String type = asked.path().substring(asked.path().lastIndexOf('/') + 1);
    return Said.of(200, FaultyServer.FHIR, found(type, asked.query()));
  }

  private String found(String type, String query) {
    String[] sides = query.split("&", 2)[0].split("=", 2);
    Predicate<Resource> sought = Sought.of(sides[0], sides[1]);
    StringBuilder entries = new StringBuilder();
    for (Resource one : current()) {
      if (one.fhirType().equals(type) && sought.test(one)) {
        entries
            .append(entries.length() == 0 ? "" : ",")
            .append("{\"resource\":")
            .append(texts.get(Place.of(one)))
            .append('}');
      }
    }
    String all = entries.length() == 0 ? "" : ",\"entry\":[" + entries + "]";
    return "{\"resourceType\":\"Bundle\",\"type\":\"searchset\"" + all + "}";
  }

  private Said bundle(Asked asked) throws Unmet {
    Bundle bundle = (Bundle) conversion.fromJson(asked.body(), Release.R4);
    boolean whole = bundle.getType() == BundleType.TRANSACTION;
    Bundle answer =
        new Bundle().setType(whole ? BundleType.TRANSACTIONRESPONSE : BundleType.BATCHRESPONSE);
    Map<String, String> where = new HashMap<>();
    if (whole) {
      for (BundleEntryComponent entry : bundle.getEntry()) {
        where.put(entry.getFullUrl(), place(entry));
      }
    }
    for (BundleEntryComponent entry : bundle.getEntry()) {
      BundleEntryComponent said = answer.addEntry();
      if (entry.getRequest().getMethod() == HTTPVerb.GET) {
        said.setResource(page(entry.getRequest().getUrl())).getResponse().setStatus("200 OK");
        continue;
      }
      try {
        String address = whole ? where.get(entry.getFullUrl()) : place(entry);
        boolean there = history.containsKey(address);
        if (there && entry.getRequest().getMethod() == HTTPVerb.POST) {
          said.getResponse().setStatus("200 OK");
        } else {
          keep(address, entry.getResource(), where);
          said.getResponse().setStatus(there ? "200 OK" : "201 Created").setLocation(address);
        }
      } catch (Unmet e) {
        said.getResponse().setStatus("412 Precondition Failed").setOutcome(new OperationOutcome());
      }
    }
    return Said.of(200, FaultyServer.FHIR, text(answer));
  }

  /** Where an entry goes: what its condition finds, else a new place. */
  private String place(BundleEntryComponent entry) throws Unmet {
    String type = entry.getResource().fhirType();
    String url = entry.getRequest().getUrl();
    if (entry.getRequest().getMethod() == HTTPVerb.PUT && !url.contains("?")) {
      match(url, entry.getRequest().getIfMatch());
      return url;
    }
    String condition =
        entry.getRequest().getMethod() == HTTPVerb.PUT
            ? url.substring(url.indexOf('?') + 1)
            : entry.getRequest().getIfNoneExist();
    return there(type, condition).orElseGet(() -> type + "/" + ++ids);
  }

  private Optional<String> there(String type, String condition) throws Unmet {
    if (!conditions() || condition == null || condition.isEmpty()) {
      return Optional.empty();
    }
    String[] sides = condition.split("=", 2);
    List<String> found =
        current().stream()
            .filter(one -> one.fhirType().equals(type))
            .filter(Sought.of(sides[0], sides[1]))
            .map(Place::of)
            .toList();
    if (found.size() > 1) {
      throw new Unmet();
    }
    return found.stream().findFirst();
  }

  private void match(String address, String ifMatch) throws Unmet {
    if (ifMatch == null || ifMatch.isEmpty()) {
      return;
    }
    List<Resource> versions = history.getOrDefault(address, List.of());
    if (!ifMatch.equals("W/\"" + versions.size() + "\"")) {
      throw new Unmet();
    }
  }

  private Said created(Asked asked) throws Unmet {
    Resource resource = conversion.fromJson(asked.body(), Release.R4);
    Optional<String> there = there(resource.fhirType(), asked.ifNoneExist());
    String address = there.orElseGet(() -> resource.fhirType() + "/" + ++ids);
    if (there.isEmpty()) {
      keep(address, resource, Map.of());
    }
    return new Said(there.isEmpty() ? 201 : 200, Map.of("Location", address), new byte[0]);
  }

  private Said updated(Asked asked) throws Unmet {
    Resource resource = conversion.fromJson(asked.body(), Release.R4);
    String address = asked.path().replaceFirst("^/fhir/", "");
    match(address, asked.ifMatch());
    keep(address, resource, Map.of());
    return new Said(200, Map.of(), new byte[0]);
  }

  private void keep(String address, Resource resource, Map<String, String> where) {
    Clients.R4.newTerser().getAllResourceReferences(resource).stream()
        .map(info -> (Reference) info.getResourceReference())
        .filter(reference -> where.containsKey(String.valueOf(reference.getReference())))
        .forEach(
            reference -> {
              reference.setReference(where.get(reference.getReference()));
              reference.setResource(null);
            });
    List<Resource> versions = history.computeIfAbsent(address, key -> new ArrayList<>());
    resource.setId(address);
    resource.getMeta().setVersionId(Integer.toString(versions.size() + 1));
    versions.add(resource);
    texts.put(address, text(resource));
  }

  private String text(Resource resource) {
    return new String(conversion.json(resource, Release.R4), StandardCharsets.UTF_8);
  }

  /** What it holds now. */
  public synchronized List<Resource> current() {
    return history.values().stream().map(all -> all.get(all.size() - 1)).toList();
  }

  /** Every version of every resource, the first first. */
  synchronized Map<String, List<Resource>> history() {
    return new LinkedHashMap<>(history);
  }

  /** What a resource is known by in business: {@code Type system|value}, tags where it has none. */
  public static List<String> names(Resource resource) {
    List<String> names = new ArrayList<>();
    Token.identifiers(resource)
        .forEach(one -> names.add(name(resource, one.getSystem(), one.getValue())));
    if (names.isEmpty()) {
      for (Coding tag : resource.getMeta().getTag()) {
        names.add(name(resource, tag.getSystem(), tag.getCode()));
      }
    }
    return names;
  }

  private static String name(Resource resource, String system, String value) {
    return resource.fhirType() + " " + system + "|" + value;
  }
}
