package org.intercusp.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.store.CaseStore;
import org.intercusp.registry.store.StoreFault;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is loaded, how it is counted, and that nothing is counted twice. */
class OutcomeIntakeTest {

  private static final String A = Registry.generated(1, 5).get(0);

  @TempDir Path folder;

  private static String withRevision(String record, int revision) {
    return record.replaceFirst(
        "\"submission\":\"([^\"]+)\"", "\"submission\":\"$1\",\"revision\":" + revision);
  }

  private static String with(String record, String member, String value) {
    return record.replaceFirst("\"" + member + "\":[^,}]+", "\"" + member + "\":" + value);
  }

  @Test
  void countsAddUpAndTheRestGoesOn() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    List<String> lines = new ArrayList<>(Registry.generated(50, 5));
    lines.set(7, "{");
    lines.set(9, with(lines.get(9), "breakages", "-1"));
    lines.set(11, " ");
    lines.add(A);
    lines.add(withRevision(with(A, "breakages", "9"), 2));
    lines.add(A);
    LoadStatus status = registry.load(lines);
    LoadCounts counts = status.counts();
    assertThat(status.state()).isEqualTo(LoadStatus.State.DONE);
    assertThat(counts.read()).isEqualTo(52);
    assertThat(counts.refused()).isEqualTo(2);
    assertThat(counts.same()).isEqualTo(2);
    assertThat(counts.fresh() + counts.replaced()).isEqualTo(48);
    assertThat(registry.ask("SELECT count(*), count(DISTINCT submission) FROM CASES"))
        .containsExactly(counts.fresh() + "," + counts.fresh());
    assertThat(registry.ask("SELECT breakages, revision FROM CASES WHERE breakages = 9"))
        .containsExactly("9,2");
    Path refused =
        registry.files().stream().filter(f -> f.toString().endsWith("ndjson")).findFirst().get();
    assertThat(Files.readAllLines(refused))
        .hasSize(2)
        .anyMatch(line -> line.contains("\"line\":8") && line.contains("not-json"))
        .anyMatch(line -> line.contains("\"line\":10") && line.contains("\"/course/breakages\""));
  }

  @Test
  void theSameAgainChangesNothing() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    List<String> lines = Registry.generated(300, 9);
    long fresh = registry.load(lines).counts().fresh();
    String before = registry.ask("SELECT bit_xor(hash(c)) FROM CASES c").get(0);
    LoadCounts again = registry.load(lines).counts();
    assertThat(again.same()).isEqualTo(300);
    assertThat(registry.ask("SELECT bit_xor(hash(c)) FROM CASES c")).containsExactly(before);
    assertThat(registry.ask("SELECT count(*) FROM CASES")).containsExactly(fresh + "");
  }

  @Test
  void aRowSaysWhatTheRecordSays() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    registry.load(
        A.replaceFirst("\"birthDate\":\"[^\"]+\"", "\"birthDate\":\"2010-02-15\"")
            .replaceFirst("\"firstFittedOn\":\"[^\"]+\"", "\"firstFittedOn\":\"2022-05-11\"")
            .replaceFirst("\"recordedOn\"", "\"recordedOn\"")
            .replaceFirst(
                "\"status\":\"[^\"]+\"(,\"reason\":\"[^\"]+\")?", "\"status\":\"completed\"")
            .replaceFirst(
                "(,\"decidedOn\":\"[^\"]+\")?,\"lastAttendedOn\":\"[^\"]+\"",
                ",\"decidedOn\":\"2024-05-11\",\"lastAttendedOn\":\"2024-05-10\"")
            .replaceFirst("\"stageDays\":\\{[^}]*\\}", "\"stageDays\":{\"active\":300}")
            .replaceFirst("\"adverseEvents\":\\[[^\\]]*\\],", "")
            .replaceFirst(
                "(,\"adverseEvents\":\\[.*?\\])?,\"assessments\":\\[.*\\]",
                ",\"adverseEvents\":[{\"code\":\"ulcer\",\"count\":2,\"serious\":1}],"
                    + "\"assessments\":[{\"phase\":\"start\",\"date\":\"2022-04-28\","
                    + "\"overjet\":9.5,\"par\":{\"upperAnterior\":6,\"lowerAnterior\":4,"
                    + "\"buccalRight\":2,\"buccalLeft\":2,\"overjet\":4,\"overbite\":2,"
                    + "\"centreline\":1},\"parAgain\":{\"upperAnterior\":5,\"lowerAnterior\":4,"
                    + "\"buccalRight\":2,\"buccalLeft\":2,\"overjet\":4,\"overbite\":2,"
                    + "\"centreline\":1},\"dhc\":\"5a\"}]"));
    // UK PAR 46 is the worked example of the clinical design; 12 years and 2 months are 146.
    assertThat(
            registry.ask(
                "SELECT age_months, first_fitted_month, start_year, status, treatment_days,"
                    + " last_attended_days, active_days, ae_ulcer, ae_serious, ae_caries,"
                    + " start_month, start_overjet, start_par_oj, start_dhc, end_overjet,"
                    + " second_par_uk_first, second_par_uk_again, second_phase, received_month,"
                    + " key_id FROM CASES"))
        .containsExactly(
            "146,2022-05,2022,completed,731,730,300,2,1,0,2022-04,9.5,4,5a,null,46,45,start,"
                + "2026-11,k1");
  }

  @Test
  void anInterruptedLoadGoesOnWhereItStopped() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    List<String> lines = new ArrayList<>(Registry.generated(25_000, 12));
    lines.set(10, "{");
    Path file = folder.resolve("many.ndjson");
    Files.write(file, lines);
    boolean[] stop = {false};
    LoadStatus half = registry.intake.load(file, (s, r) -> stop[0] = true, () -> stop[0]);
    assertThat(half.state()).isEqualTo(LoadStatus.State.RUNNING);
    assertThat(half.counts().read()).isBetween(19_000L, 24_000L);
    LoadStatus whole = registry.intake.load(file, (s, r) -> {}, () -> false);
    assertThat(whole.state()).isEqualTo(LoadStatus.State.DONE);
    assertThat(whole.counts().read()).isEqualTo(25_000);
    assertThat(whole.counts().same()).isZero();
    assertThat(whole.counts().refused()).isEqualTo(1);
    assertThat(registry.ask("SELECT count(*), count(DISTINCT submission) FROM CASES"))
        .containsExactly(whole.counts().fresh() + "," + whole.counts().fresh());
    Registry other = new Registry(folder.resolve("other"));
    LoadStatus atOnce = other.intake.load(file, (s, r) -> {}, () -> false);
    assertThat(atOnce.counts()).isEqualTo(whole.counts());
  }

  @Test
  void anInputThatBreaksLeavesWholeBatches() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    byte[] bytes = (A + "\n" + "x".repeat(100)).getBytes(java.nio.charset.StandardCharsets.UTF_8);
    InputStream broken =
        new InputStream() {
          private int at;

          @Override
          public int read() throws IOException {
            if (at == bytes.length) {
              throw new IOException("the line is cut");
            }
            return bytes[at++];
          }
        };
    assertThatThrownBy(() -> registry.intake.load(broken, (s, r) -> {}, () -> false))
        .isInstanceOf(IOException.class);
    assertThat(registry.load(List.of(A)).counts().fresh()).isEqualTo(1);
  }

  @Test
  void twoWritersDoNotMeet() {
    Registry registry = new Registry(folder);
    try (CaseStore store =
        CaseStore.open(registry.place.root(), () -> KeyRing.open(registry.place.keys()))) {
      assertThat(store.size()).isZero();
      assertThatThrownBy(() -> registry.load(List.of(A)))
          .isInstanceOf(StoreFault.class)
          .hasMessageContaining("another process");
    }
  }

  @Test
  void lineLengthIsBoundedAndLinesKeepTheirNumbers() throws IOException {
    Registry registry = new Registry(folder);
    String huge = "{\"a\":\"" + "x".repeat(9_000_000) + "\"}";
    LoadCounts counts = registry.load(A + "\n" + huge + "\n" + huge + "\n\n{\n").counts();
    assertThat(counts.read()).isEqualTo(4);
    assertThat(counts.refused()).isEqualTo(3);
    Path refused =
        registry.files().stream().filter(f -> f.toString().endsWith("ndjson")).findFirst().get();
    assertThat(Files.readAllLines(refused))
        .satisfiesExactly(
            line -> assertThat(line).contains("\"line\":2", "too-large"),
            line -> assertThat(line).contains("\"line\":3", "too-large"),
            line -> assertThat(line).contains("\"line\":5", "not-json"));
  }
}
