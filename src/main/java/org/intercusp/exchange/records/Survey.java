package org.intercusp.exchange.records;

import ca.uhn.fhir.util.ResourceReferenceInfo;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Date;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.wire.Capabilities;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Searches;
import org.intercusp.exchange.wire.Searches.Search;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.Identity;
import org.intercusp.fhir.version.Release;
import org.jspecify.annotations.Nullable;

/**
 * What a server holds of a patient's treatments, type by type. No {@code $everything}, {@code
 * _include} or chained search: not every server has them.
 */
public final class Survey {

  /** The types a treatment is made of, with the search that leads to the patient (R4). */
  private static final Map<String, List<String>> TYPES = types();

  private static Map<String, List<String>> types() {
    Map<String, List<String>> types = new LinkedHashMap<>();
    for (String type :
        List.of(
            "CarePlan",
            "CareTeam",
            "Condition",
            "DeviceRequest",
            "DeviceUseStatement",
            "DocumentReference",
            "Encounter",
            "Goal",
            "Observation",
            "Procedure",
            "ServiceRequest",
            "Task")) {
      types.put(type, List.of("subject", "patient"));
    }
    for (String type :
        List.of("AllergyIntolerance", "Appointment", "Consent", "DetectedIssue", "Device")) {
      types.put(type, List.of("patient"));
    }
    types.put("AdverseEvent", List.of("subject"));
    types.put("ImagingStudy", List.of("subject", "patient"));
    types.put("Composition", List.of("subject", "patient"));
    return types;
  }

  /** Ids have up to 64 characters, and URLs up to 2,000 pass everywhere. */
  private static final int IDS_IN_A_SEARCH = 25;

  private final FhirServer server;
  private final Capabilities can;

  public Survey(FhirServer server, Capabilities can) {
    this.server = server;
    this.can = can;
  }

  /**
   * A search by patient.
   *
   * @param listed whether the server names its parameter
   */
  private record ByPatient(Search search, boolean listed) {}

  /** What becomes of what the server does not let us read, a type or {@code Type/id}. */
  interface Forbidden {
    void is(String what, Trouble said) throws Trouble;
  }

  /** It ends the look. */
  private static final Forbidden ENDS =
      (what, said) -> {
        throw said;
      };

  /** Everything of these types that is about the patient. */
  List<Resource> of(String patientId) throws Trouble {
    return of(patientId, ENDS);
  }

  /** The same, as far as it may be read. */
  List<Resource> of(String patientId, Forbidden forbidden) throws Trouble {
    List<ByPatient> searches = new ArrayList<>();
    for (Map.Entry<String, List<String>> type : TYPES.entrySet()) {
      if (can.keeps(type.getKey())) {
        search(type.getKey(), type.getValue(), Set.of(patientId), "").ifPresent(searches::add);
      }
    }
    List<Resource> found = found(searches, forbidden);
    if (found.stream().noneMatch(Device.class::isInstance)) {
      found.addAll(devices(found, forbidden));
    }
    return found;
  }

  /**
   * The devices that these refer to. R5 searches no Device by patient, and a removed appliance
   * would stay unmarked there where no ledger names it.
   */
  private List<Resource> devices(List<Resource> resources, Forbidden forbidden) throws Trouble {
    Set<String> ids = new LinkedHashSet<>();
    resources.forEach(one -> ids.addAll(referred(one, "Device")));
    List<Resource> devices = new ArrayList<>();
    for (String id : ids) {
      try {
        server.read("Device", id).ifPresent(devices::add);
      } catch (Trouble e) {
        pass(e, "Device/" + id, forbidden);
      }
    }
    return devices;
  }

  /**
   * Observations of these patients with one of these codes; others where a server does as it likes.
   */
  List<Observation> observations(
      Set<String> patientIds, List<org.intercusp.treatment.Identifier> codes) throws Trouble {
    Set<String> named = can.of("Observation").parameters();
    String by =
        codes.stream()
            .map(code -> new Token("code", code.system(), code.value()).encoded())
            .collect(Collectors.joining(","));
    boolean asks = named.isEmpty() || named.contains("code");
    String more = asks ? "&code=" + by : "";
    List<Observation> found = new ArrayList<>();
    for (Resource one :
        found(
            search("Observation", List.of("subject", "patient"), patientIds, more).stream()
                .toList(),
            ENDS)) {
      if (one instanceof Observation observation) {
        found.add(observation);
      }
    }
    return found;
  }

  /**
   * Which of these patients something was changed for, of the types a treatment is made of.
   *
   * @param since on the server's clock; absent for whenever
   */
  public Set<String> touched(Set<String> patientIds, @Nullable Instant since) throws Trouble {
    if (since == null || patientIds.isEmpty()) {
      return patientIds;
    }
    List<ByPatient> searches = new ArrayList<>();
    for (Map.Entry<String, List<String>> type : TYPES.entrySet()) {
      if (can.keeps(type.getKey())) {
        String window = window(type.getKey(), since);
        search(type.getKey(), type.getValue(), patientIds, window).ifPresent(searches::add);
      }
    }
    Set<String> touched = new LinkedHashSet<>();
    for (Resource one : found(searches, ENDS)) {
      if (isSince(one, since)) {
        referred(one, "Patient").stream().filter(patientIds::contains).forEach(touched::add);
      }
    }
    return touched;
  }

  /** Whether the search by patient finds devices: R5 knows no such search. */
  public boolean findsDevices() {
    Set<String> named = can.of("Device").parameters();
    return !can.keeps("Device")
        || (can.release() != Release.R5 && (named.isEmpty() || named.contains("patient")));
  }

  /** Which of these resources were changed since, by id. */
  public Set<String> changed(String type, Set<String> ids, Instant since) throws Trouble {
    List<ByPatient> searches = new ArrayList<>();
    List<String> all = List.copyOf(ids);
    boolean listed = can.of(type).parameters().contains("_id");
    for (int from = 0; from < all.size(); from += IDS_IN_A_SEARCH) {
      List<String> some = all.subList(from, Math.min(all.size(), from + IDS_IN_A_SEARCH));
      String query = "_id=" + String.join(",", some) + window(type, since) + "&_count=100";
      searches.add(new ByPatient(new Search(type, query), listed));
    }
    Set<String> changed = new LinkedHashSet<>();
    for (Resource one : found(searches, ENDS)) {
      if (isSince(one, since)) {
        changed.add(one.getIdElement().getIdPart());
      }
    }
    changed.retainAll(ids);
    return changed;
  }

  private String window(String type, Instant since) {
    Set<String> named = can.of(type).parameters();
    boolean asks = named.isEmpty() || named.contains("_lastUpdated");
    return asks ? "&_lastUpdated=ge" + since.truncatedTo(ChronoUnit.SECONDS) : "";
  }

  /** Whether a resource was changed since, or does not tell when. */
  public static boolean isSince(Resource resource, Instant since) {
    Date changed = resource.getMeta().getLastUpdated();
    return changed == null || !changed.toInstant().isBefore(since.truncatedTo(ChronoUnit.SECONDS));
  }

  /** The ids of this type that a resource refers to on this server. */
  private Set<String> referred(Resource resource, String type) {
    Set<String> ids = new LinkedHashSet<>();
    for (ResourceReferenceInfo info :
        server.text().context().newTerser().getAllResourceReferences(resource)) {
      if (info.getResourceReference() instanceof Reference reference && reference.hasReference()) {
        Place.resource(server.base(), reference.getReference())
            .filter(place -> place.startsWith(type + "/"))
            .ifPresent(place -> ids.add(place.substring(type.length() + 1)));
      }
    }
    return ids;
  }

  private Optional<ByPatient> search(
      String type, List<String> parameters, Set<String> patientIds, String more) {
    Set<String> named = can.of(type).parameters();
    Optional<String> listed = parameters.stream().filter(named::contains).findFirst();
    if (listed.isEmpty() && !named.isEmpty()) {
      return Optional.empty();
    }
    String parameter = listed.orElse(parameters.get(0));
    String who = patientIds.stream().map(id -> "Patient/" + id).collect(Collectors.joining(","));
    Search search = new Search(type, parameter + "=" + who + more + "&_count=100");
    return Optional.of(new ByPatient(search, listed.isPresent()));
  }

  private static void pass(Trouble said, String what, Forbidden forbidden) throws Trouble {
    if (!said.isForbidden()) {
      throw said;
    }
    forbidden.is(what, said);
  }

  private List<Resource> found(List<ByPatient> searches, Forbidden forbidden) throws Trouble {
    Searches together = Searches.of(server, searches.stream().map(ByPatient::search).toList());
    List<Resource> found = new ArrayList<>();
    for (ByPatient one : searches) {
      try {
        found.addAll(together.found(one.search()));
      } catch (Trouble e) {
        boolean unknown = !one.listed() && (e.status() == 400 || e.status() == 404);
        if (!unknown) {
          pass(e, one.search().type(), forbidden);
        }
      }
    }
    return found;
  }

  /** The name of a resource that is one of ours. */
  public static Optional<Name> own(Resource resource) {
    for (Identifier one : Token.identifiers(resource)) {
      if (one.hasSystem()
          && one.hasValue()
          && Identity.parse(one.getSystem(), one.getValue()).isPresent()) {
        String type = resource.fhirType();
        // R4 has no search by identifier for an AdverseEvent: its tag says the same.
        String parameter = type.equals("AdverseEvent") ? Token.TAG : Token.IDENTIFIER;
        return Optional.of(new Name(type, new Token(parameter, one.getSystem(), one.getValue())));
      }
    }
    return Optional.empty();
  }
}
