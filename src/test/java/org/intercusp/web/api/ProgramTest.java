package org.intercusp.web.api;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class ProgramTest {

  @Test
  void saysTheVersionThatIsBuilt() throws Exception {
    String built = Files.readString(Path.of("pom.xml"));
    assertThat(built).containsOnlyOnce("<version>" + Program.VERSION + "-SNAPSHOT</version>");
  }
}
