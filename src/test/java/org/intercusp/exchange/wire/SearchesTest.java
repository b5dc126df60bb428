package org.intercusp.exchange.wire;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Fault;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.KeptRecords;
import org.intercusp.exchange.KeptRecords.Manner;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.records.DeliveryResult;
import org.intercusp.exchange.records.DeliveryResult.Delivered;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.RecordsClient;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Whatever a server makes of several questions at once, the delivery is the same. */
class SearchesTest {

  private static final JsonMapper JSON = new JsonMapper();

  private final KeptRecords records = new KeptRecords(Manner.CONDITIONAL);
  private final RecordsClient client = Clients.within(Duration.ofSeconds(20));
  private final Bundle parcel = Parcels.bundle(Parcels.unheardOf());
  private FaultyServer server;

  @BeforeEach
  void start() {
    server = new FaultyServer(null);
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private void answering(Fault toBatches) {
    server.always(SearchesTest::isBatch, toBatches);
    server.always(one -> true, (one, real) -> records.answer(one));
  }

  private static boolean isBatch(Asked one) {
    return !one.isWrite() && one.method().equals("POST");
  }

  private static boolean isSearch(Asked one) {
    return one.method().equals("GET") && !one.query().isEmpty();
  }

  private long batches() {
    return server.asked().stream().filter(SearchesTest::isBatch).count();
  }

  private long searches() {
    return server.asked().stream().filter(SearchesTest::isSearch).count();
  }

  private void isDeliveredOnce() {
    for (int again = 0; again < 2; again++) {
      DeliveryResult result = client.deliver(server.target(), parcel, Ledger.NONE);
      assertThat(result).isInstanceOf(Delivered.class);
      assertThat(((Delivered) result).report().entries()).hasSameSizeAs(parcel.getEntry());
    }
    // Besides the entries a Provenance, and of each one version.
    assertThat(records.current()).hasSize(parcel.getEntry().size() + 1);
    assertThat(server.writes()).isEqualTo(1);
  }

  @Test
  void aLookIsOneRequestWhereBatchesAreTaken() {
    answering((one, real) -> records.answer(one));
    isDeliveredOnce();
    // The Patient and the Provenance are single questions, in each of the two deliveries.
    assertThat(searches()).isEqualTo(4);
    assertThat(batches()).isBetween(3L, 6L);
  }

  @ParameterizedTest
  @ValueSource(ints = {400, 403, 404, 405, 413, 422, 500, 501})
  void aRefusedBatchIsAskedOneByOne(int status) {
    answering((one, real) -> Said.of(status, "text/plain", "no batches of questions"));
    isDeliveredOnce();
    assertThat(searches()).isGreaterThan(40);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{\"resourceType\":\"Bundle\",\"type\":\"batch-response\"}",
        "{\"resourceType\":\"OperationOutcome\"}",
        "<!doctype html><title>Sign in</title>",
        ""
      })
  void anAnswerThatIsNoneIsAskedOneByOne(String answer) {
    String type = answer.startsWith("<") ? "text/html" : FaultyServer.FHIR;
    answering((one, real) -> Said.of(200, type, answer));
    isDeliveredOnce();
    assertThat(searches()).isGreaterThan(40);
  }

  @Test
  void whatIsLeftUnansweredAmongOthersIsAskedByItself() {
    answering(
        (one, real) -> {
          ObjectNode said = tree(records.answer(one));
          ArrayNode entries = (ArrayNode) said.path("entry");
          ((ObjectNode) entries.get(0).path("response")).put("status", "500");
          ((ObjectNode) entries.get(1)).remove("resource");
          ((ObjectNode) entries.get(2))
              .set("resource", JSON.createObjectNode().put("resourceType", "OperationOutcome"));
          return Said.of(200, FaultyServer.FHIR, said.toString());
        });
    isDeliveredOnce();
    assertThat(searches()).isEqualTo(3 * batches() + 4);
  }

  @Test
  void pagesOfAnAnswerAreFollowed() {
    answering(
        (one, real) -> {
          ObjectNode said = tree(records.answer(one));
          for (var entry : said.path("entry")) {
            paged((ObjectNode) entry.path("resource"));
          }
          return Said.of(200, FaultyServer.FHIR, said.toString());
        });
    isDeliveredOnce();
  }

  /** Its entries are only on the second page. */
  private void paged(ObjectNode page) {
    if (page.has("entry")) {
      String rest = page.toString();
      server.first(
          Integer.MAX_VALUE,
          one -> one.query().equals("page=" + rest.hashCode()),
          (one, real) -> Said.of(200, FaultyServer.FHIR, rest));
      page.remove("entry");
      page.putArray("link")
          .addObject()
          .put("relation", "next")
          .put("url", server.baseUrl() + "?page=" + rest.hashCode());
    }
  }

  @Test
  void aBusyServerIsAskedTheSameAgain() {
    server.fault(
        2,
        SearchesTest::isBatch,
        (one, real) -> Said.of(503, "text/plain", "busy").with("Retry-After", "0"));
    answering((one, real) -> records.answer(one));
    isDeliveredOnce();
    assertThat(searches()).isEqualTo(4);
  }

  @Test
  void aServerWithoutBatchesIsAskedOneByOne() {
    KeptRecords single = new KeptRecords(Manner.TRANSACTION);
    server.always(one -> true, (one, real) -> single.answer(one));
    assertThat(client.deliver(server.target(), parcel, Ledger.NONE)).isInstanceOf(Delivered.class);
    assertThat(batches()).isZero();
  }

  private static ObjectNode tree(Said said) {
    return (ObjectNode) JSON.readTree(new String(said.body(), StandardCharsets.UTF_8));
  }
}
