package org.intercusp.worklist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import javax.sql.DataSource;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What is entered anew beside the service's work. */
class UpkeepTest {

  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-08-24T09:00:00Z"), ZoneOffset.UTC);
  private static final Duration LONG = Duration.ofSeconds(20);

  private static Upkeep upkeep(DataSource database) {
    return new Upkeep(database, new TreatmentReader(), Limits.USUAL, CLOCK);
  }

  /** Stores treatments that the list does not know. */
  private static TreatmentArchive archive(DataSource database, int treatments) throws IOException {
    TreatmentArchive archive = new TreatmentArchive(database, CLOCK);
    byte[] text = Files.readAllBytes(Path.of("sample-bundles/stage-change.treatment.json"));
    for (int i = 0; i < treatments; i++) {
      archive.store(key("T-" + (1000 + i)), text);
    }
    return archive;
  }

  private static TreatmentKey key(String id) {
    return new TreatmentKey(new Identifier("https://harbour-lane.example", "clinic"), id);
  }

  @Test
  void oneThatCannotBeEnteredStopsNoLaterBatch() throws Exception {
    DataSource database = Databases.H2.fresh();
    TreatmentArchive archive = archive(database, 230);
    JdbcClient.create(database)
        .sql("alter table worklist add constraint not_this check (treatment_id <> 'T-1000')")
        .update();
    try (Upkeep upkeep = upkeep(database)) {
      upkeep.start(archive);
      Instant until = Instant.now().plus(LONG);
      while (upkeep.waiting() > 1 && Instant.now().isBefore(until)) {
        Thread.sleep(100);
      }
      assertThat(upkeep.waiting()).isEqualTo(1);
    }
  }
}
