package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.intercusp.app.Intercusp;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;

/** The list stays quick with 10,000 treatments in the embedded database, one delivery in fifty. */
@Tag("long")
@SpringBootTest(
    classes = Intercusp.class,
    webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@Tag("steady")
class ManyTreatmentsTest {

  private static final int TREATMENTS = 10_000;

  /** Milliseconds that a page may take: common practice, no source. */
  private static final double MOST = 200;

  @TempDir static Path temporary;

  @LocalServerPort int port;
  @Autowired TreatmentArchive archive;
  @Autowired JdbcClient jdbc;

  @DynamicPropertySource
  static void settings(DynamicPropertyRegistry registry) {
    registry.add("intercusp.data", () -> temporary.resolve("data").toAbsolutePath().toString());
  }

  @BeforeEach
  void fill() {
    TreatmentWriter writer = new TreatmentWriter();
    List<Treatment> all = new TreatmentGenerator().treatments(TREATMENTS, 7).toList();
    for (int i = 0; i < all.size(); i++) {
      TreatmentKey key = TreatmentKey.of(all.get(i));
      archive.store(key, writer.write(all.get(i)));
      if (i % 50 == 0) {
        deliver(key, i % 100 == 0 ? "refused" : "delivered");
      }
    }
  }

  private void deliver(TreatmentKey key, String state) {
    jdbc.sql(
            "insert into delivery (id, clinic_system, clinic_value, treatment_id, version,"
                + " recipient, patient, state, reason, queued_at, changed_at, attempts, fence)"
                + " values (:uuid, :system, :clinic, :id, 1, 'hospital', :patient, :state, '',"
                + " current_timestamp, current_timestamp, 1, 1)")
        .param("uuid", UUID.randomUUID().toString())
        .param("system", key.clinic().system())
        .param("clinic", key.clinic().value())
        .param("id", key.treatment())
        .param("patient", "0".repeat(64))
        .param("state", state)
        .update();
  }

  @Test
  void everyWayToLookAtThemIsQuick() throws IOException {
    assertThat(page("/")).contains("10000 treatments, page 1 of 400");
    assertThat(page("/?show=delivery")).contains("100 treatments");
    for (String path :
        List.of(
            "/",
            "/?page=400",
            "/?show=any",
            "/?show=delivery",
            "/?show=overdue&sort=review",
            "/?q=HL-7-1234",
            "/?q=a&sort=name",
            "/?q=nobody+of+this+name",
            "/?sort=overjet",
            "/?sort=newest")) {
      double middle = middle(path);
      System.out.printf("%s with %d treatments: %.0f ms%n", path, TREATMENTS, middle);
      assertThat(middle).as(path).isLessThan(MOST);
    }
  }

  private double middle(String path) throws IOException {
    page(path);
    double[] times = new double[9];
    for (int i = 0; i < times.length; i++) {
      long begin = System.nanoTime();
      page(path);
      times[i] = (System.nanoTime() - begin) / 1e6;
    }
    Arrays.sort(times);
    return times[times.length / 2];
  }

  private String page(String path) throws IOException {
    Knock.Reply reply = Knock.at(port, "GET", path).with("Accept", "text/html").reply();
    assertThat(reply.status()).isEqualTo(200);
    return reply.body();
  }
}
