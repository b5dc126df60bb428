package org.intercusp.exchange.records;

import java.time.Instant;
import java.util.Comparator;
import java.util.Date;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Provenance.ProvenanceEntityRole;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.exchange.records.Parcel.Item;
import org.intercusp.exchange.wire.Token;
import org.intercusp.fhir.Canonicals;

/**
 * The Provenance of a delivery. It has no identifier in R4, so a tag that is a digest of content
 * and recipient names it, and the same delivery never leaves two.
 */
final class Trace {

  private static final String URI_SYSTEM = "urn:ietf:rfc:3986";
  private static final String ACTIVITY =
      "http://terminology.hl7.org/CodeSystem/v3-DocumentCompletion";
  private static final String AGENT =
      "http://terminology.hl7.org/CodeSystem/provenance-participant-type";

  private final Plan plan;
  private final Token token;
  private final String digest;
  private final Instant now;

  Trace(Plan plan, Canonicals canonicals, String digest, Instant now) {
    this.plan = plan;
    this.token = token(canonicals, digest);
    this.digest = digest;
    this.now = now;
  }

  static Token token(Canonicals canonicals, String digest) {
    return new Token(Token.TAG, canonicals.delivery(), digest);
  }

  Token token() {
    return token;
  }

  String urn() {
    return "urn:uuid:"
        + UUID.nameUUIDFromBytes(digest.getBytes(java.nio.charset.StandardCharsets.UTF_8));
  }

  /**
   * The Provenance.
   *
   * @param written {@code Type/id} by urn of what was created in this delivery; what is missing
   *     there is referred to by urn
   */
  Provenance provenance(Map<String, String> written) {
    Provenance provenance = new Provenance();
    provenance.getMeta().addTag(new Coding(token.system(), digest, null));
    for (Item item : plan.parcel().items()) {
      if (!item.shared() && !plan.leftDeleted().containsKey(item.urn())) {
        provenance.addTarget(new Reference(address(item, written)));
      }
    }
    provenance.setRecordedElement(new InstantType(Date.from(now)));
    provenance.setActivity(concept(ACTIVITY, "AU", "authenticated"));
    sender()
        .ifPresent(
            item ->
                provenance
                    .addAgent()
                    .setType(concept(AGENT, "assembler", "Assembler"))
                    .setWho(new Reference(address(item, written))));
    provenance
        .addEntity()
        .setRole(ProvenanceEntityRole.SOURCE)
        .getWhat()
        .setIdentifier(new Identifier().setSystem(URI_SYSTEM).setValue("urn:sha256:" + digest))
        .setDisplay("Treatment file");
    return provenance;
  }

  /** Whether there is anything to point at and anybody to name. */
  boolean isPossible() {
    return sender().isPresent() && plan.parcel().items().stream().anyMatch(item -> !item.shared());
  }

  /** The clinic: the organisation the others refer to most; a practitioner where there is none. */
  private Optional<Item> sender() {
    Map<String, Integer> mentions = new HashMap<>();
    for (Item item : plan.parcel().items()) {
      plan.parcel().needs(item).forEach(urn -> mentions.merge(urn, 1, Integer::sum));
    }
    Comparator<Item> byMentions =
        Comparator.comparingInt(one -> mentions.getOrDefault(one.urn(), 0));
    return ofType("Organization").max(byMentions).or(() -> ofType("Practitioner").max(byMentions));
  }

  private java.util.stream.Stream<Item> ofType(String type) {
    return plan.parcel().items().stream().filter(item -> item.type().equals(type));
  }

  private String address(Item item, Map<String, String> written) {
    String known = plan.known().get(item.urn());
    return known != null ? known : written.getOrDefault(item.urn(), item.urn());
  }

  private static CodeableConcept concept(String system, String code, String display) {
    return new CodeableConcept(new Coding(system, code, display));
  }
}
