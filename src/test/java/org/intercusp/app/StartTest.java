package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A wrong setting ends a command with one line that names it and the code of bad usage. */
class StartTest {

  private static final String SAFE = "sample-bundles/deep-bite-one-step.treatment.json";

  @ParameterizedTest
  @CsvSource({
    "intercusp.recipients.hospital.url, ftp://x, intercusp.recipients.hospital",
    "intercusp.limits.share-of-path, abc, intercusp.limits.share-of-path",
    "intercusp.limits.nonsense, 1, nonsense",
    "intercusp.recipients.hospital.poll-every, often, intercusp.recipients.hospital.poll-every"
  })
  void aWrongSettingIsNamed(String setting, String value, String told) {
    PrintStream error = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
    System.setProperty(setting, value);
    try {
      assertThat(Intercusp.command("check", SAFE)).isEqualTo(2);
    } finally {
      System.clearProperty(setting);
      System.setErr(error);
    }
    assertThat(said.toString(StandardCharsets.UTF_8).strip())
        .hasLineCount(1)
        .contains(told)
        .doesNotContain("\tat ");
  }
}
