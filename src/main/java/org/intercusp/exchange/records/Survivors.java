package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Patient.LinkType;
import org.hl7.fhir.r4.model.Patient.PatientLinkComponent;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Ledger.Holder;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;
import org.jspecify.annotations.Nullable;

/**
 * Which of a server's Patients stands for ours now. Where its people merged two, the one that was
 * replaced links to the one that replaced it; links are followed on the server itself, never round
 * in a ring.
 */
public final class Survivors {

  /** More merges, one after the other, than any person has seen; common practice, no source. */
  private static final int LONGEST_CHAIN = 8;

  private final FhirServer server;

  public Survivors(FhirServer server) {
    this.server = server;
  }

  /**
   * What was found.
   *
   * @param standing those that stand for ours, the one that counts first; empty where there is none
   * @param merged ids of those that were replaced, the first one delivered to first
   */
  public record Followed(List<Resource> standing, List<String> merged) {
    public Followed {
      standing = List.copyOf(standing);
      merged = List.copyOf(merged);
    }

    /** The one that counts. */
    public Optional<Resource> patient() {
      return standing.stream().findFirst();
    }

    /** {@code Patient/id} of those that were replaced. */
    Set<String> left() {
      Set<String> left = new LinkedHashSet<>();
      merged.forEach(id -> left.add("Patient/" + id));
      return left;
    }

    /** Each address with the one that content was held against before any merge. */
    public Map<String, String> same() {
      Map<String, String> same = new HashMap<>();
      if (!merged.isEmpty()) {
        String first = "Patient/" + merged.get(0);
        left().forEach(one -> same.put(one, first));
        standing.forEach(one -> same.put(Place.of(one), first));
      }
      return same;
    }

    /** What to remember of it. */
    public @Nullable Holder holder(Token ours) {
      if (standing.isEmpty()) {
        return null;
      }
      Resource patient = standing.get(0);
      Optional<Identifier> other =
          Token.identifiers(patient).stream()
              .filter(one -> !merged.isEmpty() && one.hasSystem() && one.hasValue())
              .filter(
                  one ->
                      !(ours.system().equals(one.getSystem())
                          && ours.value().equals(one.getValue())))
              .findFirst();
      return new Holder(
          ours.system(),
          ours.value(),
          patient.getIdElement().getIdPart(),
          merged,
          other.map(Identifier::getSystem).orElse(""),
          other.map(Identifier::getValue).orElse(""));
    }
  }

  /**
   * Follows what a search by our identifier found.
   *
   * @param before what is remembered of an earlier look
   */
  public Followed of(Name name, List<Resource> found, @Nullable Holder before) throws Trouble {
    Holder known = before != null && before.token().equals(name.token()) ? before : null;
    Set<String> merged = new LinkedHashSet<>();
    if (known != null) {
      merged.addAll(known.merged());
    }
    Map<String, Resource> ends = new LinkedHashMap<>();
    for (Resource candidate : found.isEmpty() && known != null ? remembered(known) : found) {
      Resource end = end(candidate, merged);
      ends.putIfAbsent(end.getIdElement().getIdPart(), end);
    }
    List<Resource> standing = new ArrayList<>(ends.values());
    merged.forEach(id -> standing.removeIf(one -> isReplaced(one, id, ends.size())));
    if (known != null && !standing.isEmpty()) {
      // A server may give the survivor our identifier and say nothing of the one it replaced.
      standing.sort((a, b) -> Boolean.compare(!isIt(a, known.id()), !isIt(b, known.id())));
      if (standing.stream().noneMatch(one -> isIt(one, known.id()))) {
        merged.add(known.id());
      }
    }
    standing.stream().limit(1).forEach(one -> merged.remove(one.getIdElement().getIdPart()));
    return new Followed(standing, new ArrayList<>(merged));
  }

  private static boolean isReplaced(Resource one, String id, int ends) {
    return ends > 1 && isIt(one, id);
  }

  private static boolean isIt(Resource one, String id) {
    return id.equals(one.getIdElement().getIdPart());
  }

  private List<Resource> remembered(Holder holder) throws Trouble {
    Optional<Resource> there = server.read("Patient", holder.id());
    if (there.isPresent()) {
      return List.of(there.get());
    }
    if (holder.otherSystem().isEmpty()) {
      return List.of();
    }
    Token other = new Token(Token.IDENTIFIER, holder.otherSystem(), holder.otherValue());
    Name name = new Name("Patient", other);
    return Snapshot.of(server, List.of(name)).all(name);
  }

  private Resource end(Resource start, Set<String> merged) throws Trouble {
    Set<String> passed = new LinkedHashSet<>();
    Resource at = start;
    while (passed.size() < LONGEST_CHAIN) {
      Optional<String> next = replacement(at);
      passed.add(at.getIdElement().getIdPart());
      if (next.isEmpty()) {
        passed.remove(at.getIdElement().getIdPart());
        merged.addAll(passed);
        return at;
      }
      Optional<Resource> there =
          passed.contains(next.get()) ? Optional.empty() : server.read("Patient", next.get());
      if (there.isEmpty()) {
        break;
      }
      at = there.get();
    }
    // A ring, an endless chain or a link to nothing: what was found is as good as it gets.
    return start;
  }

  private Optional<String> replacement(Resource resource) {
    if (!(resource instanceof Patient patient)) {
      return Optional.empty();
    }
    for (PatientLinkComponent link : patient.getLink()) {
      String to = link.getOther().getReference();
      if (link.getType() == LinkType.REPLACEDBY && to != null) {
        Optional<String> place = Place.resource(server.base(), to);
        if (place.isPresent() && place.get().startsWith("Patient/")) {
          return Optional.of(place.get().substring("Patient/".length()));
        }
      }
    }
    return Optional.empty();
  }
}
