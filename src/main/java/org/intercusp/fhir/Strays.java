package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DecimalType;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.finding.ShortText;
import org.jspecify.annotations.Nullable;

/**
 * What a Bundle says beyond the treatment read out of it: each resource is held against the one the
 * treatment would be written as. A server's own additions (id, meta, narrative) and findings, which
 * are computed anew, are expected.
 */
final class Strays {

  /** As much of a value as is shown; common practice, no source. */
  private static final int LONGEST = 80;

  private static final Set<String> EXPECTED = Set.of("id", "meta", "text", "implicitRules");
  private static final Set<String> ANSWERS = Set.of("code", "mitigation", "contained");
  private static final Set<String> ABOUT_THE_RECORD =
      Set.of("Composition", "Provenance", "AuditEvent", "OperationOutcome");

  private final List<Resource> originals;
  private final BundleIndex index;
  private final Map<String, Writing.Entry> written = new HashMap<>();
  private final Map<String, List<Writing.Entry>> byKind = new HashMap<>();
  private final IdentityHashMap<Resource, String> pairs = new IdentityHashMap<>();
  private final Set<String> taken = new HashSet<>();

  Strays(List<Resource> originals, BundleIndex index, List<Writing.Entry> written) {
    this.originals = originals;
    this.index = index;
    for (Writing.Entry entry : written) {
      this.written.put(entry.fullUrl(), entry);
      List<String> coded = codes(entry.resource());
      for (String kind : coded.isEmpty() ? List.of(entry.resource().fhirType()) : coded) {
        byKind.computeIfAbsent(kind, k -> new ArrayList<>()).add(entry);
      }
    }
  }

  List<Unplaced> found() {
    pair();
    List<Unplaced> found = new ArrayList<>();
    for (Resource original : originals) {
      if (expected(original)) {
        continue;
      }
      String url = pairs.get(original);
      Writing.Entry entry = url == null ? null : written.get(url);
      if (entry == null) {
        found.add(new Unplaced(index.path(original), original.fhirType()));
      } else {
        compare(original, entry.resource(), index.path(original), found);
      }
    }
    return found;
  }

  private static boolean expected(Resource original) {
    return ABOUT_THE_RECORD.contains(original.fhirType())
        || (original instanceof DetectedIssue issue && !issue.hasMitigation());
  }

  /**
   * By name where they share one, else by what they say. An acceptance is known by what it says:
   * its name counts the findings of its kind, which are computed anew.
   */
  private void pair() {
    Map<String, String> byName = new HashMap<>();
    written.forEach((url, entry) -> names(entry.resource()).forEach(n -> byName.put(n, url)));
    List<Resource> strangers = new ArrayList<>();
    for (Resource original : originals) {
      if (expected(original)) {
        continue;
      }
      String url =
          (original instanceof DetectedIssue ? List.<String>of() : names(original))
              .stream().filter(byName::containsKey).map(byName::get).findFirst().orElse("");
      if (!url.isEmpty() && taken.add(url)) {
        pairs.put(original, url);
      } else {
        strangers.add(original);
      }
    }
    for (Resource stranger : strangers) {
      String best = likest(stranger);
      if (best != null) {
        pairs.put(stranger, best);
        taken.add(best);
      }
    }
  }

  /** Among those of its type and code only: a Bundle may hold a thousand that are not named. */
  private @Nullable String likest(Resource stranger) {
    List<String> kinds = new ArrayList<>(codes(stranger));
    kinds.add(stranger.fhirType());
    List<Writing.Entry> free =
        kinds.stream()
            .flatMap(kind -> byKind.getOrDefault(kind, List.of()).stream())
            .distinct()
            .filter(entry -> !taken.contains(entry.fullUrl()))
            .sorted(Comparator.comparing(Writing.Entry::fullUrl))
            .toList();
    String best = null;
    int least = Integer.MAX_VALUE;
    for (Writing.Entry entry : free) {
      List<Unplaced> differences = new ArrayList<>();
      compare(stranger, entry.resource(), "", differences);
      if (differences.size() < least) {
        least = differences.size();
        best = entry.fullUrl();
      }
      if (least == 0) {
        return best;
      }
    }
    return best;
  }

  /** Its type with each of its codes; none where it has no code. */
  private static List<String> codes(Resource resource) {
    return BundleIndex.children(resource, "code").stream()
        .filter(CodeableConcept.class::isInstance)
        .flatMap(code -> ((CodeableConcept) code).getCoding().stream())
        .map(coding -> resource.fhirType() + "|" + coding.getSystem() + "|" + coding.getCode())
        .toList();
  }

  private static List<String> names(Resource resource) {
    List<String> names = new ArrayList<>();
    for (Identifier identifier : BundleIndex.identifiers(resource)) {
      names.add(resource.fhirType() + "|" + identifier.getSystem() + "|" + identifier.getValue());
    }
    return names;
  }

  private void compare(Base original, Base mapped, String path, List<Unplaced> found) {
    if (original instanceof Reference a && mapped instanceof Reference b && a.hasReference()) {
      if (!sameTarget(a, b)) {
        found.add(new Unplaced(path + ".reference", a.getReference()));
      }
    }
    if (original.isPrimitive() && !sameValue(original, mapped)) {
      found.add(new Unplaced(path, shown(original)));
    }
    for (Property property : original.children()) {
      boolean skipped =
          !property.hasValues()
              || (original instanceof Resource && EXPECTED.contains(property.getName()))
              || (original instanceof DetectedIssue && !ANSWERS.contains(property.getName()))
              || (original instanceof Reference && property.getName().equals("reference"));
      if (!skipped) {
        Property other = mapped.getNamedProperty(property.getName());
        lists(property, other == null ? List.of() : other.getValues(), path, found);
      }
    }
  }

  /** Numbers by size: what is computed here has zeros that a server may have left out. */
  private static boolean sameValue(Base original, Base mapped) {
    if (original instanceof DecimalType number
        && mapped instanceof DecimalType other
        && number.hasValue()
        && other.hasValue()) {
      return number.getValue().compareTo(other.getValue()) == 0;
    }
    return String.valueOf(original.primitiveValue()).equals(mapped.primitiveValue());
  }

  /** Each value against its equal where there is one, else against what is most like it. */
  private void lists(Property property, List<Base> mapped, String path, List<Unplaced> found) {
    List<Base> free = new ArrayList<>(mapped);
    Map<Integer, Base> unmatched = new TreeMap<>();
    for (int i = 0; i < property.getValues().size(); i++) {
      Base value = property.getValues().get(i);
      if (!value.isEmpty() && !takeEqual(value, free)) {
        unmatched.put(i, value);
      }
    }
    String name = path + "." + property.getName().replace("[x]", "");
    unmatched.forEach(
        (i, value) -> {
          String at = property.getMaxCardinality() > 1 ? name + "[" + i + "]" : name;
          found.addAll(leastDifferences(value, free, at));
        });
  }

  private boolean takeEqual(Base value, List<Base> free) {
    for (int i = 0; i < free.size(); i++) {
      if (differences(value, free.get(i), "").map(List::isEmpty).orElse(false)) {
        free.remove(i);
        return true;
      }
    }
    return false;
  }

  private List<Unplaced> leastDifferences(Base value, List<Base> free, String at) {
    List<Unplaced> least = List.of(new Unplaced(at, shown(value)));
    int best = -1;
    for (int i = 0; i < free.size(); i++) {
      Optional<List<Unplaced>> differences = differences(value, free.get(i), at);
      if (differences.isPresent() && (best < 0 || differences.get().size() < least.size())) {
        least = differences.get();
        best = i;
      }
    }
    if (best >= 0) {
      free.remove(best);
    }
    return least;
  }

  /** What a value says beyond another of its type; nothing to compare where the types differ. */
  private Optional<List<Unplaced>> differences(Base value, Base other, String at) {
    if (!other.fhirType().equals(value.fhirType())) {
      return Optional.empty();
    }
    List<Unplaced> differences = new ArrayList<>();
    compare(value, other, at, differences);
    return Optional.of(differences);
  }

  private boolean sameTarget(Reference original, Reference mapped) {
    Resource target = index.resolve(original.getReference());
    if (target == null) {
      return original.getReference().equals(mapped.getReference());
    }
    return mapped.hasReference() && mapped.getReference().equals(pairs.get(target));
  }

  private static String cut(String text) {
    return text.length() <= LONGEST ? text : ShortText.shown(text, LONGEST - 3);
  }

  /** A value in a few words. */
  static String shown(Base value) {
    if (value.isPrimitive()) {
      return cut(String.valueOf(value.primitiveValue()));
    }
    if (value instanceof Quantity quantity && quantity.hasValue()) {
      String unit = quantity.hasCode() ? quantity.getCode() : String.valueOf(quantity.getUnit());
      return quantity.getValue().toPlainString() + " " + unit;
    }
    if (value instanceof Coding coding) {
      return String.valueOf(coding.getCode());
    }
    if (value instanceof CodeableConcept concept) {
      return concept.hasText() ? concept.getText() : shown(concept.getCodingFirstRep());
    }
    if (value instanceof Reference reference) {
      return reference.hasReference() ? reference.getReference() : reference.getDisplay();
    }
    if (value instanceof Identifier identifier) {
      return identifier.getSystem() + "|" + identifier.getValue();
    }
    return value.fhirType();
  }
}
