package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.zip.GZIPOutputStream;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.records.DeliveryReport.Outcome;
import org.intercusp.exchange.records.DeliveryReport.Way;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** A real server that is no fault's victim but has ways of its own: the same is stored there. */
class OddServersIT {

  private static final String XML = "application/fhir+xml";
  private static final Pattern VERSION =
      Pattern.compile("(\"versionId\"\\s*:\\s*\"|_history/|W/\\\\?\")(\\d+)");

  private final FrontedServer server = new FrontedServer();

  @AfterEach
  void end() {
    server.close();
  }

  @Test
  void speaksXmlAlone() {
    server.front.always(
        Asked::isMetadata,
        (one, real) -> {
          Said said = real.ask(one.with("accept", XML));
          String statement = text(said).replaceAll("<format value=\"[^\"]*json\"/>", "");
          return Said.of(200, XML, statement);
        });
    server.front.always(
        one -> one.header("accept").contains("json") || one.header("content-type").contains("json"),
        (one, real) -> Said.of(one.isWrite() ? 415 : 406, "text/plain", "XML alone"));

    server.assertStoredOnce(server.delivered());
    assertThat(changed()).isPositive();
    assertThat(server.delivered().way()).isNotEqualTo(Way.NOTHING);
    assertThat(server.front.asked().stream().filter(one -> !one.isMetadata()))
        .allMatch(one -> one.header("accept").equals(XML));
  }

  @Test
  void compressesWhateverItSays() {
    server.front.always(
        one -> true,
        (one, real) -> {
          Said said = real.ask();
          return new Said(said.status(), said.headers(), zipped(said.body()))
              .with("Content-Encoding", "gzip");
        });

    server.assertStoredOnce(server.delivered());
    assertThat(server.delivered().way()).isEqualTo(Way.NOTHING);
  }

  @Test
  void givesThreeAtATime() {
    int[] pages = {0};
    server.front.always(
        one -> one.query().contains("_count=") || one.query().contains("_getpages="),
        (one, real) -> {
          pages[0] += one.query().contains("_getpages=") ? 1 : 0;
          return real.ask(one.withQuery(one.query().replaceAll("_count=\\d+", "_count=3")));
        });

    server.assertStoredOnce(server.delivered());
    assertThat(pages[0]).as("further pages").isGreaterThan(5);
    assertThat(server.delivered().way()).isEqualTo(Way.NOTHING);
  }

  @Test
  void countsVersionsItsOwnWay() {
    server.front.always(
        one -> true,
        (one, real) -> {
          Said said =
              real.ask(
                  one.withBody(one.body().replaceAll("v-(\\d+)\\.x", "$1"))
                      .with("if-match", one.ifMatch().replaceAll("v-(\\d+)\\.x", "$1")));
          Map<String, String> headers = new java.util.HashMap<>(said.headers());
          headers.computeIfPresent("Location", (name, value) -> odd(value));
          return new Said(said.status(), headers, odd(text(said)).getBytes(StandardCharsets.UTF_8));
        });

    DeliveryReport first = server.delivered();

    assertThat(first.entries()).allMatch(entry -> "v-1.x".equals(entry.version()));
    assertThat(changed()).isPositive();
  }

  @Test
  void writesAndSaysNothing() {
    server.front.always(
        Asked::isWrite, (one, real) -> new Said(real.ask().status(), Map.of(), new byte[0]));

    server.assertStoredOnce(server.delivered());
    assertThat(changed()).isPositive();
  }

  @Test
  void saysNothingOfTheEntries() {
    server.front.always(
        Asked::isWrite,
        (one, real) -> {
          real.ask();
          return Said.of(
              200,
              FaultyServer.FHIR,
              "{\"resourceType\":\"Bundle\",\"type\":\"transaction-response\","
                  + "\"entry\":[{},{\"response\":{\"status\":\"201\"}}]}");
        });

    server.assertStoredOnce(server.delivered());
  }

  /** Sends the file changed; how many resources were updated for it. */
  private long changed() {
    ObjectNode other =
        Parcels.changed(server.file, f -> ((ObjectNode) f.at("/reviews/1")).put("overjet", 6));
    Bundle bundle = Parcels.bundle(other);
    DeliveryReport report = server.delivered(bundle, Ledger.NONE);
    assertThat(report.duplicates()).isEmpty();
    assertThat(report.count(Outcome.CREATED)).isZero();
    assertThat(server.back()).isEqualTo(Parcels.canonical(other));
    return report.count(Outcome.UPDATED);
  }

  private static String odd(String text) {
    return VERSION.matcher(text).replaceAll("$1v-$2.x");
  }

  private static String text(Said said) {
    return new String(said.body(), StandardCharsets.UTF_8);
  }

  private static byte[] zipped(byte[] body) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream zip = new GZIPOutputStream(out)) {
      zip.write(body);
    }
    return out.toByteArray();
  }
}
