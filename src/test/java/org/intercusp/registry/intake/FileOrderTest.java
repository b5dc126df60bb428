package org.intercusp.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Rows that lack the same fields lie together in a batch's file, whatever is done to it later. */
class FileOrderTest {

  @TempDir Path folder;

  @Test
  void rowsWithoutScoresLieTogether() throws Exception {
    Registry registry = new Registry(folder);
    List<String> records = Registry.generated(600, 5);
    registry.load(records);
    assertThat(changes(registry, "sequence")).isGreaterThan(100);
    assertThat(changes(registry, "place")).isEqualTo(1);
    List<String> before = registry.ask("SELECT sequence FROM CASES");

    registry.intake.rotateKey();
    registry.load(records);
    assertThat(registry.ask("SELECT DISTINCT key_id FROM CASES")).containsExactly("k2");
    assertThat(registry.ask("SELECT sequence FROM CASES")).isEqualTo(before);
  }

  /** How often a row with an end score follows one without, or the other way round. */
  private static int changes(Registry registry, String order) throws SQLException {
    return Integer.parseInt(
        registry
            .ask(
                "SELECT count(*) FROM (SELECT (end_par_ua IS NULL) <> lag(end_par_ua IS NULL)"
                    + " OVER (ORDER BY "
                    + order
                    + ") AS other FROM (SELECT *, row_number() OVER () AS place FROM CASES))"
                    + " WHERE other")
            .get(0));
  }
}
