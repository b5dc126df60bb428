package org.intercusp.exchange.records;

import java.time.Instant;
import java.util.Date;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.wire.Place;
import org.jspecify.annotations.Nullable;

/**
 * A resource that content of a recipient came from, as far as it tells itself.
 *
 * @param address {@code Type/id}
 * @param version its version there; empty where none is told
 * @param changedAt when it was changed by the recipient's clock
 * @param by who made it or which system, as far as the resource says
 * @param own our name for it; absent where it is not one of ours
 * @param digest of its content; empty where it was deleted
 * @param left digest of what it was left with when that was found; absent where it is not one of
 *     ours, and in proposals of before
 */
public record Origin(
    String address,
    String version,
    @Nullable Instant changedAt,
    String by,
    Ledger.@Nullable Name own,
    String digest,
    @Nullable String left) {

  /** Of a resource as it is now. */
  public static Origin of(Resource resource, Likeness likeness, Ledger ledger) {
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
  public static Origin of(Ledger.Line deleted) {
    return new Origin(
        deleted.type() + "/" + deleted.id(), "", null, "", deleted.name(), "", deleted.stored());
  }

  /** Whether both tell of the same content that was changed from the same. */
  public boolean isSame(Origin other) {
    return Objects.equals(own, other.own)
        && digest.equals(other.digest)
        && Objects.equals(left, other.left);
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
