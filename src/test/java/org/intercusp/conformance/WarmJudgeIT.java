package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The heap of a warm judge, in a process of its own since other tests fill this one. */
class WarmJudgeIT {

  @Test
  void aWarmJudgeFitsIntoItsBound() throws IOException, InterruptedException {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    String classPath =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    Process process =
        new ProcessBuilder(List.of(java, "-Xmx350m", "-cp", classPath, WarmJudge.class.getName()))
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(said).isZero();
    assertThat(said).containsPattern("held [0-9]+ MB");
  }
}
