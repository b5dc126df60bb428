package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A finding is answered on the page of its treatment, or not. */
class AcceptancePagesTest extends OpenServiceBase {

  private static final Map<String, String> ANSWER =
      Map.of(
          "family", "Okonjo",
          "value", "S-07",
          "system", "https://harbour-lane.example/staff",
          "reason", "Held edge to edge for ten minutes without strain.");

  @Test
  void aFindingIsAcceptedWithAReasonAndTheAcceptanceWithdrawn() throws IOException {
    String place = store("unsafe-bite-refused", "ACCEPT-1");
    Visitor visitor = new Visitor(port);
    Knock.Reply page = visitor.open(place);
    assertThat(page.body())
        .contains("1 finding stops")
        .contains("Go on in spite of it")
        .contains(">Clinician&#39;s family name</label>")
        .as("no expression of a template is read by people")
        .doesNotContain("[[", "${");

    Knock.Reply done = visitor.send(page, "acceptances", ANSWER);
    assertThat(done.status()).isEqualTo(302);
    assertThat(done.header("Location")).endsWith(place + "?done=accepted#findings");
    Knock.Reply accepted = visitor.open(place + "?done=accepted");
    assertThat(accepted.body())
        .contains("The finding is accepted and stored as a new version.")
        .contains("Held edge to edge for ten minutes without strain.")
        .contains("Nothing stops a delivery.");
    JsonNode stored = record(place);
    assertThat(stored.path("acceptances").get(0).path("finding").asString())
        .isEqualTo("bite-share-exceeded");
    assertThat(stored.path("acceptances").get(0).path("on").asString())
        .isEqualTo(stored.path("asOf").asString());

    assertThat(visitor.open("/?q=ACCEPT-1").body()).doesNotContain("error to answer");
    Knock.Reply withdrawn = visitor.send(accepted, "acceptances/withdraw", Map.of());
    assertThat(withdrawn.status()).isEqualTo(302);
    assertThat(visitor.open(place).body()).contains("1 finding stops");
    assertThat(record(place).path("acceptances").size()).isZero();
    assertThat(visitor.open("/?q=ACCEPT-1").body()).contains("1 error to answer");
    assertThat(json.readTree(get(place + "/history")).size()).isEqualTo(3);
  }

  @Test
  void whatIsMissingIsSaidAndNothingTypedIsLost() throws IOException {
    String place = store("unsafe-bite-refused", "A-2");
    Visitor visitor = new Visitor(port);
    Knock.Reply page = visitor.open(place);
    Knock.Reply reply =
        visitor.send(
            page,
            "acceptances",
            Map.of("family", "O<b>konjo", "value", "S-07", "system", "no address", "reason", " "));
    assertThat(reply.status()).isEqualTo(422);
    assertThat(reply.body())
        .contains("role=\"alert\"")
        .contains("href=\"#field-reason\"")
        .contains("id=\"field-reason\"")
        .contains("aria-invalid=\"true\"")
        .contains("value=\"O&lt;b&gt;konjo\"");
    Knock.Reply system =
        visitor.send(
            page,
            "acceptances",
            Map.of("family", "O", "value", "S", "system", "no address", "reason", "It holds."));
    assertThat(system.status()).isEqualTo(422);
    assertThat(system.body()).contains("href=\"#field-system\"").contains(">It holds.</textarea>");
    Knock.Reply long500 =
        visitor.send(page, "acceptances", with(ANSWER, "reason", "x".repeat(501)));
    assertThat(long500.status()).isEqualTo(422);
    assertThat(long500.body()).contains("at most 500 characters");
    assertThat(json.readTree(get(place + "/history")).size()).isEqualTo(1);
  }

  @Test
  void anotherVersionStoredMeanwhileIsNeverOverwritten() throws IOException {
    String place = store("unsafe-bite-refused", "A-3");
    Visitor visitor = new Visitor(port);
    Knock.Reply page = visitor.open(place);
    String changed = named(sample("unsafe-bite-refused"), "A-3", "Changed");
    assertThat(knock("PUT", place).with("If-Match", "\"1\"").json(changed).reply().status())
        .isEqualTo(200);

    Knock.Reply stale = visitor.send(page, "acceptances", ANSWER);
    assertThat(stale.status()).isEqualTo(409);
    assertThat(stale.body())
        .contains("another version while you had this page open")
        .contains("Changed")
        .contains(">Held edge to edge for ten minutes without strain.</textarea>");
    assertThat(record(place).path("patient").path("family").asString()).isEqualTo("Changed");
    Knock.Reply again = visitor.send(stale, "acceptances", ANSWER);
    assertThat(again.status()).isEqualTo(302);
    assertThat(record(place).path("patient").path("family").asString()).isEqualTo("Changed");
    assertThat(visitor.send(page, "deliveries", Map.of("to", "hospital")).status()).isEqualTo(409);
    assertThat(
            visitor
                .post(
                    "/pages" + place + "/acceptances/withdraw",
                    with(token(page), "version", "1", "acceptance", "0"))
                .status())
        .isEqualTo(409);
  }

  @Test
  void whatMayNeverBeAcceptedIsNotEvenWhenTheFormIsMadeUp() throws IOException {
    String file =
        named(sample("unsafe-bite-refused"), "A-4", "Wrong")
            .replaceFirst("\"registeredReading\": 11", "\"registeredReading\": 14");
    String place = knock("POST", "/treatments").json(file).reply().header("Location");
    assertThat(get(place + "/findings")).contains("bite-readings-order");
    Visitor visitor = new Visitor(port);
    Knock.Reply page = visitor.open(place);
    assertThat(page.body()).contains("No reason overrides this");
    JsonNode finding = finding(place, "bite-readings-order");
    Map<String, String> form =
        with(
            with(token(page), "version", "1", "finding", "bite-readings-order"),
            "subject",
            finding.path("subject").asString(),
            "pointer",
            finding.path("pointer").asString());
    form.putAll(ANSWER);
    Knock.Reply reply = visitor.post("/pages" + place + "/acceptances", form);
    assertThat(reply.status()).isEqualTo(409);
    assertThat(reply.body()).contains("be accepted for any reason");
    assertThat(record(place).path("acceptances").size()).isZero();
    form.remove("_csrf");
    assertThat(visitor.post("/pages" + place + "/acceptances", form).status()).isEqualTo(403);
  }

  private JsonNode record(String place) throws IOException {
    return json.readTree(get(place));
  }

  private JsonNode finding(String place, String code) throws IOException {
    for (JsonNode finding : json.readTree(get(place + "/findings"))) {
      if (finding.path("code").asString().equals(code)) {
        return finding;
      }
    }
    throw new AssertionError("no finding " + code);
  }

  private static Map<String, String> token(Knock.Reply page) {
    Matcher found = Pattern.compile("name=\"_csrf\" value=\"([^\"]+)\"").matcher(page.body());
    assertThat(found.find()).isTrue();
    return new LinkedHashMap<>(Map.of("_csrf", found.group(1)));
  }

  private static Map<String, String> with(Map<String, String> fields, String... more) {
    Map<String, String> all = new LinkedHashMap<>(fields);
    for (int i = 0; i < more.length; i += 2) {
      all.put(more[i], more[i + 1]);
    }
    return all;
  }
}
