package org.intercusp.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The last accepted counts, wherever one batch ends and the next begins. */
class AcceptedOrderTest {

  @TempDir Path folder;

  @Test
  void aCorrectionComesAfterWhatWasAcceptedBeforeIt() throws Exception {
    String own = Registry.generated(1, 5).get(0);
    String another = own.replaceFirst("\"submission\":\"[^\"]+\"", "\"submission\":\"other\"");
    String corrected = own.replaceFirst("\"reviews\":\\d+", "\"reviews\":1");
    Registry together = new Registry(folder.resolve("together"));
    together.load(List.of(own, another, corrected));
    Registry apart = new Registry(folder.resolve("apart"));
    for (String record : List.of(own, another, corrected)) {
      apart.load(record);
    }
    String inOrder = "SELECT reviews FROM CASES ORDER BY sequence";
    assertThat(together.ask(inOrder)).isEqualTo(apart.ask(inOrder)).last().isEqualTo("1");
  }
}
