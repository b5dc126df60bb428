package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.hl7.fhir.utilities.npm.NpmPackage;
import org.intercusp.cli.CommandLineDoor;
import org.intercusp.conformance.PackageWriter;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.WebApplicationType;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;

/** The package that recipients of a deployment install, read by the HL7 tooling. */
class ProfilesCommandTest {

  private static final String OWN = "https://profiles.harbour-lane.example/fhir";

  @TempDir Path folder;

  @Test
  void theProfilesArePackagedUnderTheBaseOfTheDeployment() throws IOException {
    Path file = folder.resolve("profiles.tgz");
    assertThat(run(OWN, file)).isZero();
    NpmPackage written = NpmPackage.fromPackage(new ByteArrayInputStream(Files.readAllBytes(file)));
    assertThat(written.canonical()).isEqualTo(OWN);
    assertThat(written.hasCanonical(OWN + "/StructureDefinition/overjet")).isTrue();
    assertThat(written.hasCanonical(Canonicals.RESERVED.base() + "/StructureDefinition/overjet"))
        .isFalse();
  }

  @Test
  void withoutOneItIsWhatTheBuildWrites() throws IOException {
    Path file = folder.resolve("profiles.tgz");
    Path built = folder.resolve("built.tgz");
    PackageWriter.main(new String[] {built.toString()});
    assertThat(run(Canonicals.RESERVED.base(), file)).isZero();
    assertThat(file).hasSameBinaryContentAs(built);
  }

  @Test
  void aFileThatIsThereIsKept() throws IOException {
    Path file = Files.writeString(folder.resolve("profiles.tgz"), "somebody's");
    assertThat(run(OWN, file)).isEqualTo(2);
    assertThat(file).hasContent("somebody's");
    assertThat(run(OWN, folder.resolve("nowhere/profiles.tgz"))).isEqualTo(2);
  }

  private static int run(String base, Path to) {
    try (ConfigurableApplicationContext rooms =
        new SpringApplicationBuilder(RoomWiring.class, CommandLineDoor.class)
            .web(WebApplicationType.NONE)
            .lazyInitialization(true)
            .registerShutdownHook(false)
            .properties(Map.of("logging.threshold.console", "OFF"))
            .run("--intercusp.canonical-base=" + base)) {
      return rooms
          .getBean(CommandLineDoor.class)
          .run(new String[] {"profiles", "--to", to.toString()});
    }
  }
}
