package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/**
 * Our verdict against the published one. Every disagreement stands, with its cause, in {@code
 * disagreements.tsv}; a new one fails, and so does one that has vanished.
 */
class PublishedCasesTest {

  private static final Path LIST =
      Path.of("src/test/resources/conformance/published/disagreements.tsv");

  @Test
  void everyCaseIsJudgedAsPublished() throws IOException {
    List<PublishedCases.Case> all = PublishedCases.all();
    assertThat(all).hasSizeGreaterThan(100);
    judge(all);
    assertThat(all).extracting(PublishedCases.Case::name).containsAll(listed().keySet());
  }

  private static void judge(List<PublishedCases.Case> cases) throws IOException {
    Map<String, String> known = listed();
    Map<String, String> expected = new TreeMap<>();
    Map<String, String> found = new TreeMap<>();
    for (PublishedCases.Case one : cases) {
      List<Issue> stopping = Judges.stopping(Judges.SHARED.validate(one.document(), one.format()));
      if (known.containsKey(one.name())) {
        expected.put(one.name(), known.get(one.name()));
      }
      if (stopping.isEmpty() == one.refused()) {
        found.put(one.name(), one.refused() ? "published refused" : "published accepted");
        if (!known.containsKey(one.name())) {
          System.out.println(one.name() + "\t" + stopping.stream().map(Issue::text).toList());
        }
      }
    }
    assertThat(found).isEqualTo(expected);
  }

  /** The verdict published, by the name of each case we judge otherwise; each with a cause. */
  private static Map<String, String> listed() throws IOException {
    Map<String, String> listed = new TreeMap<>();
    for (String line : Files.readAllLines(LIST)) {
      if (!line.startsWith("#")) {
        String[] cells = line.split("\t", -1);
        assertThat(cells).as(line).hasSize(3);
        assertThat(cells[2]).as(line).isNotBlank();
        listed.put(cells[0], cells[1]);
      }
    }
    return listed;
  }
}
