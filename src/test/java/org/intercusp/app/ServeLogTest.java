package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The service's log is no result, and standard output may hold the token of this start. */
class ServeLogTest {

  @TempDir Path folder;

  @Test
  void theLogGoesToStandardError() throws Exception {
    File out = folder.resolve("out").toFile();
    File error = folder.resolve("error").toFile();
    List<String> command =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            withoutTests(),
            Intercusp.class.getName(),
            "serve",
            "--intercusp.data=" + folder.resolve("data"),
            // One that no service can have, so that it ends by itself.
            "--server.port=99999");
    Process service = new ProcessBuilder(command).redirectOutput(out).redirectError(error).start();
    try {
      assertThat(service.waitFor(3, TimeUnit.MINUTES)).isTrue();
    } finally {
      service.destroyForcibly();
    }
    assertThat(Files.readString(error.toPath())).contains("Starting Intercusp");
    assertThat(out).isEmpty();
  }

  /** The tests have a log of their own. */
  private static String withoutTests() throws Exception {
    Path log = Path.of(ServeLogTest.class.getResource("/logback-test.xml").toURI());
    return Stream.of(System.getProperty("java.class.path").split(File.pathSeparator, -1))
        .filter(each -> !Path.of(each).toAbsolutePath().equals(log.getParent()))
        .collect(Collectors.joining(File.pathSeparator));
  }
}
