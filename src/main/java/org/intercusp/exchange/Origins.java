package org.intercusp.exchange;

import java.util.Date;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.Proposal.Origin;

/** Where content of a recipient came from, as far as the resource itself tells. */
final class Origins {

  private Origins() {}

  static Origin of(Resource resource, Likeness likeness, Ledger ledger) {
    Date changed = resource.getMeta().getLastUpdated();
    String version = resource.getMeta().getVersionId();
    return new Origin(
        Place.of(resource),
        version == null ? "" : version,
        changed == null ? null : changed.toInstant(),
        by(resource),
        Survey.own(resource)
            .map(name -> new Ledger.Name(name.type(), name.token().system(), name.token().value()))
            .orElse(null),
        likeness.digest(resource),
        Survey.own(resource)
            .flatMap(name -> ledger.line(name.type(), name.token()))
            .map(Ledger.Line::stored)
            .orElse(null));
  }

  /** Of a resource of ours that is not there any more. */
  static Origin of(Ledger.Line deleted) {
    return new Origin(
        deleted.type() + "/" + deleted.id(), "", null, "", deleted.name(), "", deleted.stored());
  }

  /** Who observed it where that is named, else the system the server says it came from. */
  private static String by(Resource resource) {
    Stream<String> people =
        resource instanceof Observation observation
            ? observation.getPerformer().stream().map(one -> one.getDisplay())
            : Stream.of();
    List<String> named = people.filter(Objects::nonNull).toList();
    if (!named.isEmpty()) {
      return String.join(", ", named);
    }
    String source = resource.getMeta().getSource();
    // Some servers put only the number of a request there, which tells a person nothing.
    return source == null || source.startsWith("#") ? "" : source;
  }
}
