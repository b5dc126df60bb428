package org.intercusp.exchange.records;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.util.ResourceReferenceInfo;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.wire.Token;

/**
 * A transaction Bundle taken apart: each resource with what it is found by, and whether it is
 * shared (created once, then the server's) or ours (kept up to date). Refused: entries without a
 * {@code urn:uuid}, without a search, or with the same search twice.
 */
public final class Parcel {

  /**
   * One resource to be there in the end.
   *
   * @param urn its {@code urn:uuid}, which the others refer to it by
   * @param shared created when absent and then left alone
   */
  record Item(String urn, Resource resource, Token token, boolean shared) {
    String type() {
      return resource.fhirType();
    }
  }

  private final FhirContext context;
  private final List<Item> items;
  private final Map<String, Set<String>> needs = new HashMap<>();

  private Parcel(FhirContext context, List<Item> items) {
    this.context = context;
    this.items = List.copyOf(items);
  }

  static Parcel of(FhirContext context, Bundle bundle) {
    if (bundle.getType() != BundleType.TRANSACTION || !bundle.hasEntry()) {
      throw new IllegalArgumentException("A delivery is a transaction Bundle with entries");
    }
    List<Item> items = new ArrayList<>();
    Set<String> names = new HashSet<>();
    for (BundleEntryComponent entry : bundle.getEntry()) {
      Item item = item(entry);
      if (!names.add(item.urn()) || !names.add(item.type() + "?" + item.token().search())) {
        throw new IllegalArgumentException("Two entries of the Bundle have the same name");
      }
      items.add(item);
    }
    return new Parcel(context, items);
  }

  /** Digest of what the patient of a Bundle is found by, which names no patient. */
  public static String patientDigest(Bundle bundle) {
    StringBuilder names = new StringBuilder();
    for (BundleEntryComponent entry : bundle.getEntry()) {
      if (entry.getResource() != null && entry.getResource().fhirType().equals("Patient")) {
        names.append(item(entry).token().search()).append('\n');
      }
    }
    return Likeness.digest(names.toString());
  }

  private static Item item(BundleEntryComponent entry) {
    boolean shared = entry.getRequest().getMethod() == HTTPVerb.POST;
    String url = String.valueOf(entry.getRequest().getUrl());
    String search =
        shared
            ? String.valueOf(entry.getRequest().getIfNoneExist())
            : url.substring(url.indexOf('?') + 1);
    Optional<Token> token = Token.of(search);
    String urn = String.valueOf(entry.getFullUrl());
    Resource resource = entry.getResource();
    if (resource == null || token.isEmpty() || !urn.startsWith("urn:uuid:")) {
      throw new IllegalArgumentException(
          "An entry of the Bundle lacks a resource, a urn:uuid or a search by identifier");
    }
    return new Item(urn, resource, token.get(), shared);
  }

  List<Item> items() {
    return items;
  }

  Set<String> types() {
    Set<String> types = new TreeSet<>();
    items.forEach(item -> types.add(item.type()));
    return types;
  }

  /** The item of the patient it is all about, when there is exactly one. */
  Optional<Item> patient() {
    List<Item> patients = items.stream().filter(item -> item.type().equals("Patient")).toList();
    return patients.size() == 1 ? Optional.of(patients.get(0)) : Optional.empty();
  }

  /** What the parcel as a whole says, whatever the order of its entries. */
  String digest(Likeness likeness) {
    Set<String> parts = new TreeSet<>();
    for (Item item : items) {
      parts.add(item.type() + item.token().search() + likeness.digest(item.resource()));
    }
    return Likeness.digest(String.join("\n", parts));
  }

  /** The urns of other items that an item refers to. */
  Set<String> needs(Item item) {
    return needs.computeIfAbsent(item.urn(), urn -> found(item));
  }

  private Set<String> found(Item item) {
    Set<String> urns = new LinkedHashSet<>();
    for (Reference reference : references(item.resource())) {
      String to = String.valueOf(reference.getReference());
      if (to.startsWith("urn:uuid:") && !to.equals(item.urn())) {
        urns.add(to);
      }
    }
    Set<String> own = new HashSet<>();
    items.forEach(one -> own.add(one.urn()));
    urns.retainAll(own);
    return urns;
  }

  /**
   * A copy of an item's resource whose references lead to what is known to be stored.
   *
   * @param known {@code Type/id} by urn
   * @param loose urns whose references are left out, because what they name is not there yet
   * @param absent what is not there and is not to be, by urn: it is referred to by its name alone
   */
  Resource addressed(
      Item item, Map<String, String> known, Set<String> loose, Map<String, Item> absent) {
    Resource copy = item.resource().copy();
    copy.setId((String) null);
    Map<String, String> where = new HashMap<>(known);
    for (Reference reference : references(copy)) {
      String to = String.valueOf(reference.getReference());
      if (where.containsKey(to)) {
        reference.setReference(where.get(to));
      } else if (loose.contains(to)) {
        reference.setReference(null);
        reference.setDisplay(null);
      } else if (absent.containsKey(to)) {
        Item named = absent.get(to);
        reference.setReference(null);
        reference.setType(named.type());
        reference.setIdentifier(
            new Identifier().setSystem(named.token().system()).setValue(named.token().value()));
      }
      reference.setResource(null);
    }
    return copy;
  }

  /** Where a stored resource's references lead, as {@code Type/id}. */
  Set<String> places(Resource stored) {
    Set<String> places = new HashSet<>();
    for (Reference reference : references(stored)) {
      String to = String.valueOf(reference.getReference());
      String[] parts = to.split("/_history/", 2)[0].split("/", -1);
      if (parts.length >= 2) {
        places.add(parts[parts.length - 2] + "/" + parts[parts.length - 1]);
      }
    }
    return places;
  }

  private List<Reference> references(Resource resource) {
    List<Reference> references = new ArrayList<>();
    for (ResourceReferenceInfo info : context.newTerser().getAllResourceReferences(resource)) {
      if (info.getResourceReference() instanceof Reference reference) {
        references.add(reference);
      }
    }
    return references;
  }
}
