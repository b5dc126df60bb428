package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.core.env.MapPropertySource;
import org.springframework.web.context.support.GenericWebApplicationContext;

/** The data directory is closed to others, and nothing else is. */
class DataDirectoryTest {

  @TempDir Path folder;

  @BeforeEach
  void openToOthers() throws IOException {
    assumeTrue(FileSystems.getDefault().supportedFileAttributeViews().contains("posix"));
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "  "})
  void anEmptySettingIsNotTheDirectoryItWasStartedIn(String empty) {
    try (GenericWebApplicationContext context = new GenericWebApplicationContext()) {
      context
          .getEnvironment()
          .getPropertySources()
          .addFirst(new MapPropertySource("set", Map.of("intercusp.data", empty)));
      assertThat(
              assertThrows(
                  IllegalArgumentException.class, () -> new DataDirectory().initialize(context)))
          .hasMessage("intercusp.data is empty; it names a directory");
    }
  }

  @Test
  void aDirectoryOfOtherThingsStaysOpen() throws IOException {
    Files.createDirectory(folder.resolve("other"));
    assertThat(assertThrows(UncheckedIOException.class, () -> DataDirectory.make(folder)))
        .hasMessageStartingWith("intercusp.data cannot be used")
        .cause()
        .hasMessageContaining(folder + ": ")
        .hasMessageContaining("holds other things and is open to others")
        .hasMessageContaining("a directory of its own");
    assertThat(permissions()).isEqualTo("rwxr-xr-x");
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
    DataDirectory.make(folder);
  }

  @ParameterizedTest
  @ValueSource(strings = {"intercusp.mv.db", "registry", "pseudonyms.keys", "lost+found"})
  void oneThatIsOursOrEmptyIsClosed(String name) throws IOException {
    DataDirectory.make(folder);
    assertThat(permissions()).isEqualTo("rwx------");
    openToOthers();
    Files.createDirectory(folder.resolve(name));
    DataDirectory.make(folder);
    assertThat(permissions()).isEqualTo("rwx------");
  }

  @Test
  void itIsNamedOnce() throws IOException {
    Path file = Files.createFile(folder.resolve("file"));
    UncheckedIOException fault =
        assertThrows(UncheckedIOException.class, () -> DataDirectory.make(file));
    assertThat(fault).hasMessage("intercusp.data cannot be used");
    assertThat(fault).cause().hasMessage(file + ": it is there already, and no directory");
  }

  private String permissions() throws IOException {
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(folder));
  }
}
