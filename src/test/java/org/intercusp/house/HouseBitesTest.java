package org.intercusp.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchRule;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Each check of the house finds the violation planted for it, and leaves its neighbours alone. */
class HouseBitesTest {

  private static final String ROOT = "org.intercusp.house.fixture";
  private static final JavaClasses PLANTED = new ClassFileImporter().importPackages(ROOT);
  private static final HouseRules HOUSE = new HouseRules(ROOT);

  @TempDir Path folder;

  @Test
  void aRoomThatReachesUp() {
    assertThat(said(HOUSE.roomsUseOnlyWhatTheTableAllows()))
        .hasSize(3)
        .anyMatch(line -> line.contains("measure.ReachesUp"))
        .anyMatch(line -> line.contains("access.UsesTreatment"))
        .anyMatch(line -> line.contains("web.api.ReachesApp"));
  }

  @Test
  void aCycle() {
    assertThat(said(HOUSE.noCycles()))
        .singleElement()
        .asString()
        .contains("measure.ReachesUp", "dentition.Above");
  }

  @Test
  void springBelow() {
    assertThat(said(HOUSE.noSpringBelow())).isNotEmpty().allMatch(of("treatment.UsesSpring"));
  }

  @Test
  void hapiElsewhere() {
    assertThat(said(HOUSE.hapiOnlyWhereNamed()))
        .anyMatch(of("rules.UsesHapi"))
        .anyMatch(of("archive.UsesFhirModel"))
        .noneMatch(of("fhir.MayUseHapi"));
  }

  @Test
  void aForbiddenName() {
    assertThat(said(HOUSE.noForbiddenNames())).singleElement().matches(of("analysis.util.Helper"));
  }

  @Test
  void aRoomNobodyPlanned() {
    assertThat(said(HOUSE.everyPackageIsInTheTable()))
        .singleElement()
        .matches(of("cellar.Forgotten"));
  }

  @Test
  void anUnmarkedPackage() {
    assertThat(said(HOUSE.everyPackageIsNullMarked()))
        .anyMatch(of("fixture.cellar"))
        .noneMatch(of("fixture.app"));
  }

  @Test
  void lombokInClasses() {
    JavaClasses own = new ClassFileImporter().importClasses(lombok.Planted.class, Uses.class);
    assertThat(new HouseRules("org.intercusp").noLombok().evaluate(own).hasViolation()).isTrue();
  }

  @Test
  void lombokInSources() throws IOException {
    write("A.java", "import lombok.Data;\nclass A {}\n");
    write("B.java", "// import lombok.Data;\nclass B {}\n");
    assertThat(SourceRules.lombok(folder)).singleElement().matches(of("A.java"));
  }

  @Test
  void aLongFile() throws IOException {
    write("Long.java", "//\n".repeat(SourceRules.LINES));
    write("Short.java", "//\n".repeat(SourceRules.LINES - 1));
    assertThat(SourceRules.tooLong(folder)).singleElement().matches(of("Long.java"));
  }

  @Test
  void sourcesWithoutThePackageMark() throws IOException {
    write("bare/A.java", "class A {}");
    write("mute/package-info.java", "@NullMarked\npackage mute;\n");
    write("open/package-info.java", "/** A sentence. */\npackage open;\n");
    write("good/package-info.java", "/** A sentence. */\n@NullMarked\npackage good;\n");
    assertThat(SourceRules.unmarkedPackages(folder))
        .hasSize(3)
        .noneMatch(line -> line.contains("good"));
  }

  @Test
  void everyRoomOfThePictureIsThere() {
    assertThat(new RoomTable().rooms())
        .containsExactlyInAnyOrder(
            "measure",
            "dentition",
            "finding",
            "treatment",
            "analysis",
            "rules",
            "fhir",
            "conformance",
            "archive",
            "bulk",
            "exchange",
            "summary",
            "registry",
            "worklist",
            "scenario",
            "access",
            "audit",
            "web.api",
            "web.fhir",
            "web.pages",
            "cli",
            "app");
  }

  private void write(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    Files.writeString(file, text);
  }

  private static List<String> said(ArchRule rule) {
    return rule.evaluate(PLANTED).getFailureReport().getDetails();
  }

  private static Predicate<String> of(String part) {
    return line -> line.contains(part);
  }

  /** Stands for a class that was compiled against Lombok. */
  static final class Uses {
    public lombok.Planted planted() {
      return new lombok.Planted();
    }
  }
}
