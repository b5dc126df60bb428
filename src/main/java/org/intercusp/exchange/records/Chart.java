package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.records.Survivors.Followed;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.Sightings;

/**
 * What a server holds now of one treatment that was delivered to it: the resources of ours, what
 * they refer to, and what others observed of the same patient that a treatment file has a place
 * for. Nothing else of the patient's is asked for.
 *
 * @param strangers Observations of others, final, that the file may have a place for
 * @param deleted what was delivered and is not there any more
 */
public record Chart(Bundle bundle, List<Observation> strangers, List<Ledger.Line> deleted) {

  private static final Set<String> FINAL = Set.of("final", "amended", "corrected");

  /** Reads it. */
  public static Chart of(
      FhirServer server, Survey survey, Ledger ledger, Followed patient, Sightings what)
      throws Trouble {
    Set<Name> names = new LinkedHashSet<>();
    for (Ledger.Line line : ledger.lines()) {
      if (!line.withdrawn()) {
        names.add(Deleted.name(line));
      }
    }
    Snapshot held = Snapshot.of(server, names);
    Map<String, Resource> members = new LinkedHashMap<>();
    names.forEach(
        name -> held.chosen(name, ledger).ifPresent(one -> members.put(Place.of(one), one)));
    patient.patient().ifPresent(one -> members.put(Place.of(one), one));
    Reader reader = new Reader(server, patient);
    members.values().forEach(reader::lead);
    Following following = new Following(server, reader::read);
    following.complete(members);
    return new Chart(
        following.bundle(members),
        reader.strangers(survey, members, what),
        Deleted.of(ledger, held, patient));
  }

  /** What reads one chart. */
  private record Reader(FhirServer server, Followed patient) {

    /** What we may not see is as if it were not there: the rest is looked at all the same. */
    private Optional<Resource> read(String address) throws Trouble {
      String[] parts = address.split("/", 2);
      try {
        Optional<Resource> there = server.read(parts[0], parts[1]);
        there.ifPresent(this::lead);
        return there;
      } catch (Trouble e) {
        if (e.isForbidden()) {
          return Optional.empty();
        }
        throw e;
      }
    }

    /** References to a Patient that was merged into another lead to the one that stands. */
    private void lead(Resource resource) {
      Set<String> left = patient.left();
      for (Reference reference : Following.references(server, resource)) {
        Optional<String> place = Place.resource(server.base(), reference.getReference());
        if (place.filter(left::contains).isPresent() && patient.patient().isPresent()) {
          reference.setReference(Place.of(patient.patient().get()));
        }
      }
    }

    List<Observation> strangers(Survey survey, Map<String, Resource> members, Sightings what)
        throws Trouble {
      Set<String> ids = new LinkedHashSet<>(patient.merged());
      patient.standing().forEach(one -> ids.add(one.getIdElement().getIdPart()));
      List<Observation> strangers = new ArrayList<>();
      for (Observation one : survey.observations(ids, what.codes())) {
        boolean taken =
            what.concerns(one)
                && one.hasStatus()
                && FINAL.contains(one.getStatus().toCode())
                && Survey.own(one).isEmpty()
                && !members.containsKey(Place.of(one));
        if (taken) {
          strangers.add(one);
        }
      }
      return strangers;
    }
  }
}
