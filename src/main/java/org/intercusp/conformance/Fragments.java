package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Resource;

/**
 * The codes of other people's systems that our resources carry, as fragments: enough to judge
 * offline, with the notices their owners ask for. They are no part of the published package.
 */
final class Fragments {

  private static final List<String> NAMES =
      List.of("loinc", "snomed", "iso-3950", "us-dental-category");

  private final List<CodeSystem> systems;
  private final Map<String, Set<String>> codes;

  Fragments(FhirContext context) {
    systems =
        NAMES.stream()
            .map(name -> context.newJsonParser().parseResource(CodeSystem.class, text(name)))
            .toList();
    codes =
        systems.stream()
            .collect(
                Collectors.toUnmodifiableMap(
                    CodeSystem::getUrl,
                    system ->
                        system.getConcept().stream()
                            .map(concept -> concept.getCode())
                            .collect(Collectors.toUnmodifiableSet())));
  }

  List<CodeSystem> systems() {
    return systems;
  }

  /** A warning for each code of such a system beyond the fragment: it may be right, or may not. */
  List<Issue> unjudged(Resource root) {
    List<Issue> issues = new ArrayList<>();
    walk(root, root.fhirType(), issues);
    return issues;
  }

  private void walk(Base base, String path, List<Issue> issues) {
    if (base instanceof Coding coding) {
      Set<String> held = codes.get(String.valueOf(coding.getSystem()));
      if (held != null && coding.hasCode() && !held.contains(coding.getCode())) {
        issues.add(
            new Issue(
                Weight.WARNING,
                FhirRule.CODE.type(),
                FhirRule.CODE.code(),
                "The code '%s' of %s is not among those held here, so it was not judged."
                    .formatted(coding.getCode(), coding.getSystem()),
                path + ".code",
                coding.getCode(),
                null,
                null));
      }
      return;
    }
    for (Property property : base.children()) {
      List<Base> values = property.getValues();
      String name = property.getName().replace("[x]", "");
      for (int i = 0; i < values.size(); i++) {
        String index = property.isList() ? "[" + i + "]" : "";
        walk(values.get(i), path + "." + name + index, issues);
      }
    }
  }

  private static String text(String name) {
    String file = "terminology/CodeSystem-" + name + ".json";
    try (InputStream in = Fragments.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException(file + " is not on the class path");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file, e);
    }
  }
}
