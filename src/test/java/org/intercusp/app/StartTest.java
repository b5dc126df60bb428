package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Map;
import org.intercusp.cli.StartFault;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.core.env.MapPropertySource;
import org.springframework.web.context.support.GenericWebApplicationContext;

/** A wrong setting ends a command with one line that names it and the code of bad usage. */
class StartTest {

  private static final String SAFE = "sample-bundles/deep-bite-one-step.treatment.json";

  @ParameterizedTest
  @CsvSource({
    "intercusp.recipients.hospital.url, ftp://x, intercusp.recipients.hospital",
    "intercusp.limits.share-of-path, abc, intercusp.limits.share-of-path",
    "intercusp.limits.nonsense, 1, nonsense",
    "intercusp.recipients.hospital.vicinity, near, it is elsewhere-only or this-machine-too",
    "intercusp.data, '', data is empty; it names a directory",
    "intercusp.registry.largest-submission, -1MB, largest-submission is more than nothing",
    "intercusp.recipients.hospital.poll-every, often, intercusp.recipients.hospital.poll-every"
  })
  void aWrongSettingIsNamed(String setting, String value, String told) {
    System.setProperty(setting, value);
    try {
      boolean registry = setting.startsWith("intercusp.registry");
      String[] command = {registry ? "outcomes" : "check", registry ? "report" : SAFE};
      assertRefused(told, command);
    } finally {
      System.clearProperty(setting);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "intercusp.delivery.workers",
        "intercusp.deliveries.worker",
        "intercusp.doors.requires-token",
        "intercusp.recipients.hospital.urll",
        "intercusp.recipients.hospital.backend.kidd",
        "intercusp.login.tenants",
        "intercusp.data.directory"
      })
  void aSettingThatDoesNotExistIsNotLeftAside(String setting) {
    assertRefused(setting + ": there is no such setting", "check", SAFE, "--" + setting + "=3");
  }

  @Test
  void aFileOfSettingsIsReadByACommand(@TempDir Path folder) throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("clinic.yaml"),
            """
            intercusp:
              canonicalBase: https://harbour-lane.example/fhir
              recipients.hospital: {url: "http://127.0.0.1:9/fhir", scope: hospital, poll_every: 5m}
              login.tenants: {harbour: ["https://harbour-lane.example/organisations|harbour-lane"]}
            """);
    String settings = "--spring.config.additional-location=" + file;
    String[] send = {"send", SAFE, "--to", "hospital", "--dry-run", settings};
    assertThat(said(send)).isEmpty();
    Files.writeString(file, "intercusp.recipients.hospital.scoop: hospital");
    assertRefused("intercusp.recipients.hospital.scoop", send);
    Files.writeString(file, "intercusp:\n\tdata: x\n");
    assertRefused("Wrong setting: while scanning", send);
    Files.delete(file);
    assertRefused("cannot be found", send);
  }

  @Test
  void aDataDirectoryThatCannotBeUsedIsNamed() {
    StartFault fault =
        new StartFault(
            assertThrows(RuntimeException.class, () -> DataDirectory.make(Path.of(SAFE))));
    assertThat(told(fault))
        .contains("Wrong setting: intercusp.data cannot be used: " + SAFE, "is there already")
        .doesNotContain("Exception");
  }

  @Test
  void aDataDirectoryMayBeRelative() throws IOException {
    Path relative = Path.of("target/relative/wä ö");
    try (GenericWebApplicationContext context = new GenericWebApplicationContext()) {
      context
          .getEnvironment()
          .getPropertySources()
          .addFirst(new MapPropertySource("set", Map.of("intercusp.data", relative.toString())));
      new DataDirectory().initialize(context);
      assertThat(relative).isDirectory();
      assertThat(context.getEnvironment().getProperty("intercusp.data"))
          .isEqualTo(relative.toAbsolutePath().toString());
    } finally {
      Files.deleteIfExists(relative);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"--port=9090", "now", "--server.port", "-p"})
  void aWordThatSetsNothingIsNotLeftAside(String word) {
    RuntimeException fault =
        assertThrows(RuntimeException.class, () -> Intercusp.mustBeSettings("--a.b=c", word));
    assertThat(told(new StartFault(fault))).startsWith("Wrong setting: " + word + " is none");
  }

  @ParameterizedTest
  @CsvSource({"28000, role x does not exist", "28P01, wrong", "3D000, no such database"})
  void aDatabaseThatDoesNotKnowUsIsNamed(String state, String said) {
    SQLException driver = new SQLException(said, state);
    assertThat(told(new StartFault(new IllegalStateException("pool", driver))))
        .isEqualTo("Wrong setting spring.datasource: " + said);
  }

  @Test
  void aPortThatIsNoneIsNamed() {
    IllegalArgumentException fault =
        new IllegalArgumentException(
            "Connector failed to start", new IllegalArgumentException("port out of range: 99999"));
    assertThat(told(new StartFault(fault)))
        .isEqualTo("Wrong setting: Connector failed to start: port out of range: 99999");
  }

  /** Of a setting, so it ends with 2. */
  private static String told(StartFault fault) {
    try (Overheard said = new Overheard()) {
      assertThat(fault.told()).isEqualTo(2);
      return said.error().strip();
    }
  }

  private static void assertRefused(String told, String... words) {
    assertThat(said(words).strip()).hasLineCount(1).contains(told).doesNotContain("\tat ");
  }

  /** What a command said on standard error; it ended with 2 where it said anything, else with 0. */
  private static String said(String... words) {
    try (Overheard said = new Overheard()) {
      int code = Intercusp.command(words);
      assertThat(code).as(said.error()).isEqualTo(said.error().isEmpty() ? 0 : 2);
      return said.error();
    }
  }
}
