package org.intercusp.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.intercusp.app.Intercusp;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The walls of the house hold in the product's own classes and sources. */
class HouseTest {

  private static final Path MAIN = Path.of("src/main/java");
  private static final JavaClasses PRODUCT =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .withImportOption(new ImportOption.DoNotIncludeJars())
          .importPackages("org.intercusp");

  static Stream<ArchRule> rules() {
    HouseRules house = new HouseRules("org.intercusp");
    return Stream.of(
        house.everyPackageIsInTheTable(),
        house.roomsUseOnlyWhatTheTableAllows(),
        house.noCycles(),
        house.noSpringBelow(),
        house.hapiOnlyWhereNamed(),
        house.noForbiddenNames(),
        house.everyPackageIsNullMarked(),
        house.noLombok());
  }

  @ParameterizedTest
  @MethodSource("rules")
  void wallsHold(ArchRule rule) {
    rule.check(PRODUCT);
  }

  @Test
  void theProductIsWhatIsLookedAt() {
    assertThat(PRODUCT.contain(Intercusp.class)).isTrue();
    assertThat(PRODUCT.contain(HouseTest.class)).isFalse();
    assertThat(SourceRules.sources(MAIN)).isNotEmpty();
  }

  @Test
  void filesAreShort() {
    assertThat(SourceRules.tooLong(Path.of("src"))).isEmpty();
  }

  @Test
  void packagesAreMarked() {
    assertThat(SourceRules.unmarkedPackages(MAIN)).isEmpty();
  }

  @Test
  void noLombok() {
    assertThat(SourceRules.lombok(Path.of("src"))).isEmpty();
  }
}
