package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Fault;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.records.DeliveryReport.Outcome;
import org.intercusp.exchange.records.DeliveryReport.Way;
import org.intercusp.exchange.wire.Difficulty;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ObjectNode;

/** A real server with faults put before it: in the end it holds every treatment once. */
class FaultsIT {

  private final FrontedServer fronted = new FrontedServer();
  private final FaultyServer server = fronted.front;
  private final RecordsClient client = fronted.client;
  private final ObjectNode file = fronted.file;
  private final Bundle bundle = fronted.bundle;

  @AfterEach
  void end() {
    fronted.close();
  }

  enum Once {
    BUSY((one, real) -> Said.of(503, "text/html", "<html>").with("Retry-After", "1")),
    TOO_MANY(
        (one, real) ->
            Said.of(429, "text/plain", "")
                .with(
                    "Retry-After",
                    DateTimeFormatter.RFC_1123_DATE_TIME.format(
                        ZonedDateTime.now(ZoneOffset.UTC).plusSeconds(2)))),
    CONFLICT((one, real) -> Said.of(409, "text/plain", "")),
    STALE((one, real) -> Said.of(412, "text/plain", "")),
    FAULT((one, real) -> Said.of(500, "text/plain", "")),
    RESET((one, real) -> Said.nothing()),
    /** Stored, and the answer lost. */
    LOST(
        (one, real) -> {
          real.ask();
          return Said.nothing();
        }),
    /** Stored, and yet a fault answered. */
    STORED_BUT_500(
        (one, real) -> {
          real.ask();
          return Said.of(500, "text/plain", "");
        });

    private final Fault fault;

    Once(Fault fault) {
      this.fault = fault;
    }
  }

  @ParameterizedTest
  @EnumSource
  void aWriteFailsOnce(Once what) {
    server.fault(1, Asked::isWrite, what.fault);

    DeliveryReport report = fronted.delivered();

    assertThat(server.writes()).isLessThanOrEqualTo(2);
    fronted.assertStoredOnce(report);
  }

  @ParameterizedTest
  @EnumSource(names = {"BUSY", "FAULT", "RESET"})
  void aReadFailsNowAndThen(Once what) {
    int[] count = {0};
    server.always(
        one -> !one.isWrite() && ++count[0] % 5 == 0,
        what == Once.BUSY ? (one, real) -> Said.of(503, "text/html", "<html>") : what.fault);

    fronted.assertStoredOnce(fronted.delivered());
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void takesNoTransaction(boolean batches) {
    server.capable(
        statement -> {
          if (batches) {
            return statement.replaceAll("(\"code\"\\s*:\\s*)\"transaction\"", "$1\"batch\"");
          }
          return statement
              .replaceAll("\\{\\s*\"code\"\\s*:\\s*\"(transaction|batch)\"\\s*},?", "")
              .replaceAll("\"conditional(Create|Update)\"\\s*:\\s*true\\s*,?", "");
        });

    DeliveryReport report = fronted.delivered();

    assertThat(report.way()).isEqualTo(batches ? Way.BATCHES : Way.SINGLE);
    assertThat(report.differences()).isEmpty();
    assertThat(report.count(Outcome.CREATED)).isEqualTo(report.entries().size());
    assertThat(fronted.delivered().way()).isEqualTo(Way.NOTHING);
    assertThat(fronted.back()).isEqualTo(Parcels.canonical(file));
  }

  @Test
  void locationsInAnyForm() {
    server.capable(
        statement ->
            statement
                .replaceAll("\\{\\s*\"code\"\\s*:\\s*\"transaction\"\\s*},?", "")
                .replaceAll("\\{\\s*\"code\"\\s*:\\s*\"batch\"\\s*},?", ""));
    String[] forms = {"", "Patient/x/_history/1", "/fhir/a/b", "http://127.0.0.1:1/fhir/Patient/1"};
    int[] count = {0};
    server.always(
        Asked::isWrite,
        (one, real) -> {
          Said said = real.ask();
          Said bare =
              new Said(said.status() == 201 ? 200 : said.status(), said.headers(), new byte[0]);
          return bare.with("Location", forms[count[0]++ % forms.length]);
        });

    DeliveryReport report = fronted.delivered();

    assertThat(report.way()).isEqualTo(Way.SINGLE);
    assertThat(report.differences()).isEmpty();
    assertThat(fronted.back()).isEqualTo(Parcels.canonical(file));
  }

  @Test
  void aTransactionAnswered200ThatFailed() {
    server.fault(
        1,
        Asked::isWrite,
        (one, real) ->
            Said.of(
                200,
                FaultyServer.FHIR,
                "{\"resourceType\":\"Bundle\",\"type\":\"transaction-response\",\"entry\":"
                    + "[{\"response\":{\"status\":\"422 Unprocessable\",\"outcome\":"
                    + "{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\","
                    + "\"code\":\"invalid\",\"details\":{\"text\":\"not this one\"}}]}}}]}"));

    DeliveryResult result = client.deliver(server.target(), bundle.copy(), Ledger.NONE);

    assertThat(result).isInstanceOf(DeliveryResult.Failed.class);
    assertThat(((DeliveryResult.Failed) result).difficulty()).isEqualTo(Difficulty.REFUSED);
    assertThat(((DeliveryResult.Failed) result).words()).isEqualTo("error: not this one");
  }

  @Test
  void partOfItIsWrittenAndSaid() {
    server.capable(
        statement ->
            statement
                .replaceAll("\\{\\s*\"code\"\\s*:\\s*\"transaction\"\\s*},?", "")
                .replaceAll("\\{\\s*\"code\"\\s*:\\s*\"batch\"\\s*},?", ""));
    int[] count = {0};
    server.always(
        one -> one.isWrite() && ++count[0] > 10,
        (one, real) -> Said.of(403, "text/plain", "no more"));

    DeliveryResult.Failed failed =
        (DeliveryResult.Failed) client.deliver(server.target(), bundle.copy(), Ledger.NONE);

    assertThat(failed.status()).isEqualTo(403);
    assertThat(failed.written()).hasSize(10);
  }

  @Test
  void whatTheServersPeopleChangedIsNotOverwritten() {
    DeliveryReport first = fronted.delivered();
    DeliveryReport.Entry overjet =
        first.entries().stream()
            .filter(entry -> entry.value().endsWith("/overjet/rev-2"))
            .findFirst()
            .orElseThrow();
    change("/Observation/" + overjet.id(), "\"value\":7", "\"value\":5");

    DeliveryResult same =
        client.deliver(server.target(), bundle.copy(), Ledger.of(first.ledger().lines()));
    DeliveryReport kept = ((DeliveryResult.Delivered) same).report();
    assertThat(kept.way()).isEqualTo(Way.NOTHING);
    assertThat(kept.differences())
        .extracting(DeliveryReport.Difference::path)
        .containsExactly("Observation.valueQuantity.value");

    ObjectNode changed =
        Parcels.changed(file, f -> ((ObjectNode) f.at("/reviews/1")).put("overjet", 6));
    long before = server.writes();
    DeliveryResult result =
        client.deliver(server.target(), Parcels.bundle(changed), Ledger.of(kept.ledger().lines()));
    assertThat(result).isInstanceOf(DeliveryResult.Conflicting.class);
    assertThat(server.writes()).isEqualTo(before);
  }

  private void change(String path, String from, String to) {
    try {
      java.net.http.HttpClient http = java.net.http.HttpClient.newHttpClient();
      java.net.URI url = java.net.URI.create(server.baseUrl() + path);
      String now =
          http.send(
                  java.net.http.HttpRequest.newBuilder(url)
                      .header("Accept", FaultyServer.FHIR)
                      .build(),
                  java.net.http.HttpResponse.BodyHandlers.ofString())
              .body()
              .replaceAll("\\s*:\\s*", ":");
      assertThat(now).contains(from);
      now = now.replace(from, to);
      int status =
          http.send(
                  java.net.http.HttpRequest.newBuilder(url)
                      .header("Content-Type", FaultyServer.FHIR)
                      .PUT(
                          java.net.http.HttpRequest.BodyPublishers.ofString(
                              now, StandardCharsets.UTF_8))
                      .build(),
                  java.net.http.HttpResponse.BodyHandlers.ofString())
              .statusCode();
      assertThat(status).isEqualTo(200);
    } catch (java.io.IOException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
