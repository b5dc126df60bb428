package org.intercusp.exchange.records;

import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.records.Survivors.Followed;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Trouble;

/**
 * What a server was given and does not find any more, though it still is the server that was given
 * it. One that was emptied or replaced has not the Patient either, or has another one and nothing
 * of the treatment: there everything is sent as for the first time.
 */
public final class Deleted {

  private Deleted() {}

  /**
   * The resources of ours that were deleted, or no longer have the name that they are found by.
   *
   * @param held what is found of the names in the ledger that are asked about
   * @param patient who stands for ours there now
   */
  static List<Ledger.Line> of(Ledger ledger, Snapshot held, Followed patient) {
    List<Ledger.Line> lines = ledger.lines().stream().filter(line -> !line.withdrawn()).toList();
    if (!isTheSame(ledger, held, patient)) {
      return List.of();
    }
    return lines.stream().filter(line -> held.all(name(line)).isEmpty()).toList();
  }

  /** The same, asked of the server alone. */
  public static List<Ledger.Line> at(FhirServer server, Ledger ledger, Followed patient)
      throws Trouble {
    List<Name> names =
        ledger.lines().stream().filter(line -> !line.withdrawn()).map(Deleted::name).toList();
    return of(ledger, Snapshot.of(server, names), patient);
  }

  static Name name(Ledger.Line line) {
    return new Name(line.type(), line.token());
  }

  /**
   * Whether it is the server that was given what the ledger says. A Patient alone with another id
   * is one that another treatment brought anew; after a silent merge the rest is where it was.
   */
  static boolean isTheSame(Ledger ledger, Snapshot held, Followed patient) {
    if (patient.standing().isEmpty()) {
      return false;
    }
    Ledger.Holder holder = ledger.patient();
    boolean known =
        holder != null && patient.standing().stream().anyMatch(one -> isIt(one, holder.id()));
    return known
        || ledger.lines().stream()
            .anyMatch(line -> held.all(name(line)).stream().anyMatch(one -> isIt(one, line.id())));
  }

  private static boolean isIt(Resource one, String id) {
    return id.equals(one.getIdElement().getIdPart());
  }
}
