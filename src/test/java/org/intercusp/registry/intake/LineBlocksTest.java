package org.intercusp.registry.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Blocks are bounded by lines as well as by bytes, and leave nothing out. */
class LineBlocksTest {

  @ParameterizedTest
  @ValueSource(ints = {1, 1_999, 2_000, 2_001, 4_000, 400_000})
  void shortLinesAreCutByTheirNumber(int lines) throws IOException {
    for (String end : new String[] {"", "\n", "\n{", "\n\n\n"}) {
      byte[] input = ("{}\n".repeat(lines - 1) + "{}" + end).getBytes(UTF_8);
      LineBlocks blocks = new LineBlocks(new ByteArrayInputStream(input), 0, 0);
      ByteArrayOutputStream all = new ByteArrayOutputStream();
      long behind = 0;
      for (LineBlocks.Block one = blocks.next(); one != null; one = blocks.next()) {
        assertThat(one.firstLine()).isEqualTo(behind + 1);
        assertThat(one.lines()).isBetween(1L, (long) LineBlocks.LINES);
        all.write(one.bytes(), 0, one.length());
        assertThat(one.endOffset()).isEqualTo(all.size());
        behind = one.endLine();
      }
      assertThat(all.toByteArray()).isEqualTo(input);
      assertThat(behind).isEqualTo(new String(input, UTF_8).lines().count());
    }
  }
}
