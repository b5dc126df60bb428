package org.intercusp.app.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** The first command's path from the packaged jar, in its form that ends by itself. */
class DemoIT {

  @Test
  void everySampleIsSentOrStoppedForItsReason() throws Exception {
    Path output = Path.of("target", "demo-it.log");
    long begin = System.nanoTime();
    Process demo =
        new ProcessBuilder(command())
            .redirectErrorStream(true)
            .redirectOutput(output.toFile())
            .start();
    // Some 100 s on two idle cores; a build that uses both with other tests takes far longer.
    boolean ended = demo.waitFor(600, TimeUnit.SECONDS);
    if (!ended) {
      demo.destroyForcibly();
    }
    String said = Files.readString(output);
    assertThat(ended).as(said).isTrue();
    System.out.printf(
        "the demo took %d s%n", Duration.ofNanos(System.nanoTime() - begin).toSeconds());
    assertThat(demo.exitValue()).as(said).isZero();
    assertThat(said).contains("[1/5]", "[2/5]", "[3/5]", "[4/5]", "[5/5]");
    assertThat(said).contains("bite-share-exceeded", "appliance-allergy", "consent-missing");
    assertThat(said).containsPattern("HL-2026-001 to the hospital: \\d+ created");
    assertThat(said).doesNotContain("Exception");
  }

  private static List<String> command() {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-XX:TieredStopAtLevel=1",
        "-XX:+UseSerialGC",
        "-Dloader.main=org.intercusp.app.demo.Demo",
        "-cp",
        System.getProperty("intercusp.jar"),
        "org.springframework.boot.loader.launch.PropertiesLauncher",
        "once");
  }
}
