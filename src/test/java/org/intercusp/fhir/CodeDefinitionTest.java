package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.ConceptMap;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.audit.Deed;
import org.intercusp.rules.RuleCatalogue;
import org.intercusp.rules.rule.RuleDescription;
import org.junit.jupiter.api.Test;

/** Every local code in use is defined in {@code profiles}, and every code defined there is used. */
class CodeDefinitionTest {

  private static final Path PROFILES = Path.of("profiles");

  @Test
  void codesUsedAndCodesDefinedAreTheSame() throws Exception {
    Map<String, Map<String, String>> used = used();
    Map<String, Map<String, String>> defined = new TreeMap<>();
    for (CodeSystem system : load("CodeSystem-", CodeSystem.class)) {
      Map<String, String> codes = new TreeMap<>();
      system.getConcept().forEach(c -> codes.put(c.getCode(), c.getDisplay()));
      defined.put(system.getUrl(), codes);
    }
    String rules = Canonicals.RESERVED.of(LocalSystem.RULE);
    assertThat(defined).containsKey(rules);
    // The rules define themselves; their catalogue is compared elsewhere.
    defined.remove(rules);
    used.remove(rules);
    // What the conformance room says of a document is no code of a treatment.
    defined.remove(Canonicals.RESERVED.base() + "/CodeSystem/conformance-issue");
    Map<String, String> deeds = defined.remove(Canonicals.RESERVED.base() + "/CodeSystem/deed");
    assertThat(deeds.keySet())
        .containsExactlyInAnyOrderElementsOf(
            Stream.of(Deed.values()).filter(d -> !d.isRestful()).map(Deed::code).toList());
    // The figures of the registry's report name themselves; their Measure is written from them.
    defined.remove(Canonicals.RESERVED.base() + "/CodeSystem/registry-figure");
    assertThat(used).isEqualTo(defined);
  }

  @Test
  void theRulesDefinedAreThoseOfTheCatalogue() throws Exception {
    CodeSystem rules =
        load("CodeSystem-rule.", CodeSystem.class).stream().findFirst().orElseThrow();
    assertThat(rules.getConcept().stream().map(c -> c.getCode()))
        .containsExactlyInAnyOrderElementsOf(
            RuleCatalogue.rules().stream().map(RuleDescription::code).toList());
  }

  @Test
  void everyCodeSaysWhatItMeans() throws Exception {
    for (CodeSystem system : load("CodeSystem-", CodeSystem.class)) {
      assertThat(system.getCount()).as(system.getUrl()).isEqualTo(system.getConcept().size());
      assertThat(system.getConcept())
          .as(system.getUrl())
          .allSatisfy(concept -> assertThat(concept.getDefinition()).isNotBlank());
      assertThat(system.getConcept().stream().map(c -> c.getCode()).toList())
          .as(system.getUrl())
          .doesNotHaveDuplicates();
    }
  }

  @Test
  void mapsLeadFromOurCodesUnderTheOwnersNotice() throws Exception {
    Map<String, Map<String, String>> used = used();
    List<ConceptMap> maps = load("ConceptMap-", ConceptMap.class);
    assertThat(maps).isNotEmpty();
    for (ConceptMap map : maps) {
      ConceptMap.ConceptMapGroupComponent group = map.getGroupFirstRep();
      Map<String, String> ours = used.get(group.getSource());
      if (ours == null) {
        // Teeth: from the notation they are written in to the others.
        assertThat(group.getSource()).isEqualTo("urn:iso:std:iso:3950");
      } else {
        assertThat(ours.keySet())
            .containsAll(group.getElement().stream().map(e -> e.getCode()).toList());
      }
      if (group.getTarget().equals(Codes.LOINC)) {
        assertThat(map.getCopyright()).contains("Regenstrief");
      } else if (group.getTarget().equals("http://snomed.info/sct")) {
        assertThat(map.getCopyright()).contains("SNOMED International");
      } else {
        assertThat(ours).as("another notation of teeth").isNull();
      }
    }
  }

  /** Codes of the closed lists, and those that the mappers name once they are loaded. */
  private static Map<String, Map<String, String>> used() throws Exception {
    Path classes = Path.of(Codes.class.getProtectionDomain().getCodeSource().getLocation().toURI());
    try (Stream<Path> files = Files.list(classes.resolve("org/intercusp/fhir"))) {
      for (Path file : files.sorted().toList()) {
        String name = file.getFileName().toString();
        if (name.endsWith(".class") && !name.startsWith("package-info")) {
          Class.forName("org.intercusp.fhir." + name.substring(0, name.length() - 6));
        }
      }
    }
    Map<String, Map<String, String>> used = new TreeMap<>();
    for (LocalSystem system : LocalSystem.values()) {
      Map<String, String> codes = new TreeMap<>();
      system.fileCodes().forEach(code -> codes.put(code, system.display(code)));
      used.put(Canonicals.RESERVED.of(system), codes);
    }
    Set<Concept> named = new HashSet<>(Codes.named());
    assertThat(named).as("a code named twice").hasSameSizeAs(Codes.named());
    named.forEach(
        concept ->
            used.get(concept.system(Canonicals.RESERVED)).put(concept.code(), concept.display()));
    return used;
  }

  private static <R extends Resource> List<R> load(String prefix, Class<R> type)
      throws IOException {
    List<R> loaded = new ArrayList<>();
    try (Stream<Path> files = Files.list(PROFILES)) {
      for (Path file : new TreeSet<>(files.toList())) {
        String name = file.getFileName().toString();
        if (name.startsWith(prefix)) {
          loaded.add(Samples.FHIR.newJsonParser().parseResource(type, Files.readString(file)));
        }
      }
    }
    return loaded;
  }
}
