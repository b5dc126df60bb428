package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What the doors queue, with a recipient that does not answer. */
class DeliveryDoorTest extends OpenServiceBase {

  @Autowired JdbcClient jdbc;

  /** The practice is sent nothing else: a recipient that does not answer pauses as a whole. */
  @Test
  void aServerThatIsDownLeavesADeliveryToSeeAndRetry() throws Exception {
    Knock.Reply taken = knock("POST", "/treatments").json(sample("unsafe-bite-accepted")).reply();
    String place = taken.header("Location");
    Knock.Reply queued =
        knock("POST", place + "/deliveries").json("{\"to\": \"practice\"}").reply();
    assertThat(queued.status()).isEqualTo(202);
    Knock.Reply again = knock("POST", place + "/deliveries").json("{\"to\": \"practice\"}").reply();
    assertThat(again.status()).isEqualTo(200);
    assertThat(again.header("Location")).isEqualTo(queued.header("Location"));
    JsonNode delivery = waiting(queued.header("Location"));
    assertThat(delivery.path("state").asString()).isEqualTo("waiting");
    assertThat(delivery.path("reason").asString()).isNotBlank().doesNotContain("Exception");

    String id = queued.header("Location").substring("/deliveries/".length());
    jdbc.sql("update delivery set state = 'delivered' where id = ?").param(id).update();
    Knock.Reply late = knock("POST", queued.header("Location") + "/retry").json("{}").reply();
    assertThat(late.status()).as("what is not tried again is not taken up").isEqualTo(409);
    assertThat(late.body()).contains("It has been delivered");
    jdbc.sql("update delivery set state = 'waiting' where id = ?").param(id).update();
    assertThat(knock("POST", queued.header("Location") + "/retry").json("{}").reply().status())
        .isEqualTo(202);
    String page = knock("GET", "/deliveries").with("Accept", "text/html").reply().body();
    assertThat(page).contains("Try again").doesNotContain("Exception");
  }

  private JsonNode waiting(String place) throws Exception {
    for (int i = 0; i < 300; i++) {
      JsonNode delivery = json.readTree(knock("GET", place).reply().body());
      if (delivery.path("state").asString().equals("waiting")) {
        return delivery;
      }
      Thread.sleep(200);
    }
    return json.readTree(knock("GET", place).reply().body());
  }

  /** Whoever brings it and whether or not a recipient is named: it goes at once (clinical.md). */
  @Test
  void newHarmGoesToEveryRecipientThatMayHaveIt() throws Exception {
    ObjectNode file = (ObjectNode) json.readTree(sample("deep-bite-one-step"));
    file.put("id", "HARM-1");
    ArrayNode scope = (ArrayNode) file.at("/patient/consent/scope");
    scope.removeAll().add("hospital");
    Knock.Reply taken = knock("POST", "/treatments").json(file.toString()).reply();
    assertThat(taken.status()).isEqualTo(201);
    String place = taken.header("Location");
    assertThat(queued(place)).isEmpty();

    ObjectNode review = (ObjectNode) file.path("reviews").get(file.path("reviews").size() - 1);
    review.putArray("jointSigns").add("pain").add("locking");
    String etag = knock("GET", place).reply().header("ETag");
    Knock.Reply harm = knock("PUT", place).with("If-Match", etag).json(file.toString()).reply();
    assertThat(harm.status()).isEqualTo(200);
    JsonNode queued = queued(place);
    assertThat(queued).as("the registry has no consent").hasSize(1);
    assertThat(queued.get(0).path("to").asString()).isEqualTo("hospital");
    assertThat(harm.body()).contains("\"hospital\"").doesNotContain("\"registry\"");

    etag = knock("GET", place).reply().header("ETag");
    ((ObjectNode) file.path("patient")).put("family", "Ahlers");
    assertThat(knock("PUT", place).with("If-Match", etag).json(file.toString()).reply().status())
        .isEqualTo(200);
    assertThat(queued(place)).as("known harm is no news").hasSize(1);
  }

  private JsonNode queued(String place) throws IOException {
    return json.readTree(knock("GET", place + "/deliveries").reply().body());
  }
}
