package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.r4.model.ValueSet;
import org.hl7.fhir.utilities.npm.NpmPackage;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.Profile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ProfilesPackageTest {

  private static final Canonicals CANONICALS = Canonicals.RESERVED;

  /**
   * The core library, asked to judge an extension's definition, makes its snapshot anew and wants
   * the whole R4 package from a registry for it. Ours is made when the package is loaded.
   */
  private static final String WANTS_A_REGISTRY = "Unable to resolve package id hl7.fhir.r4.core";

  static List<Path> definitions() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("profiles"))) {
      return files
          .filter(f -> f.getFileName().toString().matches(".+-.+\\.json"))
          .sorted()
          .toList();
    }
  }

  static List<Path> examples() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("profiles/example"))) {
      return files.sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("definitions")
  void everyDefinitionValidates(Path file) throws IOException {
    List<Issue> issues = Judges.SHARED.validate(Files.readAllBytes(file), Format.JSON);
    assertThat(Judges.stopping(issues))
        .filteredOn(issue -> !issue.text().contains(WANTS_A_REGISTRY))
        .isEmpty();
  }

  @ParameterizedTest
  @MethodSource("examples")
  void everyExampleValidates(Path file) throws IOException {
    List<Issue> issues = Judges.SHARED.validate(Files.readAllBytes(file), Format.JSON);
    assertThat(Judges.stopping(issues)).isEmpty();
  }

  /** What R4 has no resource type for is kept apart, so that tools of R4 can load the rest. */
  @Test
  void onlyWhatIsNoResourceOfR4StandsInOther() throws IOException {
    Pattern type = Pattern.compile("\"resourceType\"\\s*:\\s*\"([^\"]+)\"");
    try (Stream<Path> files = Files.list(Path.of("profiles/other"))) {
      for (Path file : files.toList()) {
        var found = type.matcher(Files.readString(file));
        assertThat(found.find()).isTrue();
        assertThat(Judges.FHIR.getResourceTypes()).doesNotContain(found.group(1));
      }
    }
  }

  @Test
  void thereIsAProfileAndAnExampleForEachKindOfResource() throws IOException {
    for (Profile profile : Profile.values()) {
      StructureDefinition definition = profile(CANONICALS.of(profile));
      assertThat(definition.getType()).as(profile.kebab()).isEqualTo(profile.type());
      assertThat(definition.hasDifferential() && definition.hasSnapshot()).isTrue();
      assertThat(
              Path.of("profiles/example", profile.type() + "-" + profile.kebab() + "-example.json"))
          .exists();
    }
    assertThat(examples()).hasSize(Profile.values().length);
    assertThat(profile(CANONICALS.fromReview()).getSnapshot().getElement()).isNotEmpty();
  }

  @Test
  void everyCodeOfAValueSetIsDefined() {
    for (Resource definition : Judges.SHARED.profiles().definitions()) {
      if (definition instanceof ValueSet set) {
        for (ValueSet.ConceptSetComponent include : set.getCompose().getInclude()) {
          if (include.getSystem().startsWith(CANONICALS.base())) {
            assertThat(codes(include.getSystem()))
                .as(set.getUrl())
                .isNotEmpty()
                .containsAll(include.getConcept().stream().map(c -> c.getCode()).toList());
          }
        }
      }
    }
  }

  @Test
  void everyRuleOfOursIsDefined() throws IOException {
    Set<String> codes = codes(CANONICALS.base() + Outcomes.ISSUES);
    Set<String> said = new HashSet<>(Set.of("fhir-unplaced", "fhir-nothing-found"));
    for (GuardRule rule : GuardRule.values()) {
      said.add(rule.code());
    }
    for (FhirRule rule : FhirRule.values()) {
      said.add(rule.code());
    }
    said.addAll(writtenIn(Path.of("src/main/java/org/intercusp/web/fhir")));
    said.addAll(writtenIn(Path.of("src/main/java/org/intercusp/app/security")));
    assertThat(codes).isEqualTo(said);
  }

  /** Codes of these families that the doors' own sources name. */
  private static Set<String> writtenIn(Path room) throws IOException {
    Pattern code = Pattern.compile("\"((?:fhir|guard)-[a-z-]+)\\\\?\"");
    Set<String> found = new HashSet<>();
    try (Stream<Path> files = Files.list(room)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        code.matcher(Files.readString(file)).results().forEach(hit -> found.add(hit.group(1)));
      }
    }
    assertThat(found).as(room.toString()).isNotEmpty();
    return found;
  }

  @Test
  void loadsAsAFhirPackage() throws IOException {
    byte[] written = written();
    NpmPackage loaded = NpmPackage.fromPackage(new ByteArrayInputStream(written));

    assertThat(loaded.name()).isEqualTo("org.intercusp.functional-appliance");
    assertThat(loaded.canonical()).isEqualTo(CANONICALS.base());
    assertThat(loaded.fhirVersion()).isEqualTo("4.0.1");
    assertThat(loaded.license()).isEqualTo("Apache-2.0");
    assertThat(loaded.listResources("StructureDefinition")).hasSize(Profile.values().length + 1);
    assertThat(loaded.list("package")).contains("NOTICE");
    assertThat(loaded.list("other")).contains("ViewDefinition-outcome-cases.json");
    try (var in = loaded.loadByCanonical(CANONICALS.of(Profile.OVERJET))) {
      StructureDefinition overjet =
          (StructureDefinition) Judges.FHIR.newJsonParser().parseResource(in);
      assertThat(overjet.getSnapshot().getElement()).hasSizeGreaterThan(40);
    }
    assertThat(written()).isEqualTo(written);
  }

  @Test
  void keepsTheNoticesOfTheSystemsItUses() throws IOException {
    String notice = Files.readString(Path.of("profiles/NOTICE"));
    for (CodeSystem fragment : new Fragments(Judges.FHIR).systems()) {
      assertThat(fragment.getContent()).isEqualTo(CodeSystem.CodeSystemContentMode.FRAGMENT);
      if (fragment.getUrl().contains("loinc") || fragment.getUrl().contains("snomed")) {
        assertThat(notice).contains(fragment.getCopyright());
      }
    }
  }

  private static byte[] written() throws IOException {
    return new PackageWriter(Judges.SHARED.profiles(), Judges.FHIR).bytes();
  }

  private static StructureDefinition profile(String url) {
    return Judges.SHARED.profiles().definitions().stream()
        .filter(StructureDefinition.class::isInstance)
        .map(StructureDefinition.class::cast)
        .filter(definition -> definition.getUrl().equals(url))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no profile " + url));
  }

  private static Set<String> codes(String system) {
    Set<String> codes = new HashSet<>();
    for (Resource definition : Judges.SHARED.profiles().definitions()) {
      if (definition instanceof CodeSystem defined && defined.getUrl().equals(system)) {
        defined.getConcept().forEach(concept -> codes.add(concept.getCode()));
      }
    }
    return codes;
  }
}
