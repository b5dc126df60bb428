package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.intercusp.app.Intercusp;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The pages on a real port, as a browser without script uses them. */
@SpringBootTest(
    classes = Intercusp.class,
    webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
    properties = {
      "intercusp.recipients.hospital.url=http://127.0.0.1:9/fhir",
      "intercusp.recipients.hospital.scope=hospital",
      "intercusp.recipients.hospital.title=Harbour General"
    })
class PagesTest {

  private static final Path SAMPLES = Path.of("sample-bundles");
  private static final Map<String, String> ANSWER =
      Map.of(
          "family", "Okonjo",
          "value", "S-07",
          "system", "https://harbour-lane.example/staff",
          "reason", "Held edge to edge for ten minutes without strain.");

  @TempDir static Path temporary;

  @LocalServerPort int port;
  @Autowired JdbcClient jdbc;

  private final JsonMapper json = new JsonMapper();

  @DynamicPropertySource
  static void settings(DynamicPropertyRegistry registry) {
    registry.add("intercusp.data", () -> temporary.resolve("data").toAbsolutePath().toString());
  }

  @Test
  void aFindingIsAcceptedWithAReasonAndTheAcceptanceWithdrawn() throws IOException {
    String place = store("unsafe-bite-refused", "A-1");
    Visitor visitor = new Visitor(port);
    Knock.Reply page = visitor.open(place);
    assertThat(page.body()).contains("1 finding stops").contains("Go on in spite of it");

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

    assertThat(visitor.open("/?q=A-1").body()).doesNotContain("error to answer");
    Knock.Reply withdrawn = visitor.send(accepted, "acceptances/withdraw", Map.of());
    assertThat(withdrawn.status()).isEqualTo(302);
    assertThat(visitor.open(place).body()).contains("1 finding stops");
    assertThat(record(place).path("acceptances").size()).isZero();
    assertThat(visitor.open("/?q=A-1").body()).contains("1 error to answer");
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

  @Test
  void aTreatmentIsSentOrSaidWhyNot() throws IOException {
    Visitor visitor = new Visitor(port);
    Knock.Reply stopped = visitor.open(store("unsafe-bite-refused", "A-5"));
    Knock.Reply no = visitor.send(stopped, "deliveries", Map.of("to", "hospital"));
    assertThat(no.status()).isEqualTo(409);
    assertThat(no.body()).contains("Nothing was sent").contains("84.62 %");
    assertThat(visitor.send(stopped, "deliveries", Map.of("to", "moon")).status()).isEqualTo(422);

    String place = store("unsafe-bite-accepted", "A-6");
    Knock.Reply page = visitor.open(place);
    Knock.Reply queued = visitor.send(page, "deliveries", Map.of("to", "hospital"));
    assertThat(queued.header("Location")).contains("done=queued");
    Knock.Reply twice = visitor.send(page, "deliveries", Map.of("to", "hospital"));
    assertThat(twice.header("Location")).contains("done=existing");
    jdbc.sql(
            "update delivery set state = 'refused', reason = 'It was refused.' where treatment_id"
                + " = 'A-6'")
        .update();
    assertThat(visitor.open("/?show=delivery").body()).contains("A-6").contains("delivery stuck");
    assertThat(visitor.open("/deliveries").body()).contains("refused by the recipient");
    Knock.Reply sent = visitor.open(place);
    assertThat(sent.body()).contains("refused by the recipient").contains("It was refused.");
    Knock.Reply retried = visitor.send(sent, "retry", Map.of());
    assertThat(retried.header("Location")).as(retried.body()).contains("done=retried");
    Knock.Reply detail = visitor.open(retried.header("Location"));
    assertThat(detail.status()).isEqualTo(200);
    assertThat(detail.body()).contains("It is being tried again.").contains("Tries");
    assertThat(visitor.open("/deliveries/none").status()).isEqualTo(404);
  }

  @Test
  void twoVersionsAreComparedInTradeWords() throws IOException {
    String place = store("unsafe-bite-refused", "A-7");
    String safer =
        named(sample("unsafe-bite-refused"), "A-7", "Kowalczyk")
            .replace("\"registeredReading\": 11", "\"registeredReading\": 8")
            .replace("\"overjetInBite\": 0", "\"overjetInBite\": 3");
    assertThat(knock("PUT", place).with("If-Match", "\"1\"").json(safer).reply().status())
        .isEqualTo(200);
    String page = new Visitor(port).open(place + "/compare?from=1&to=2").body();
    assertThat(page)
        .contains("Construction bite › bite-1 › registered reading")
        .contains("<del><bdi>11</bdi></del>")
        .contains("<ins><bdi>8</bdi></ins>")
        .containsPattern("<b>Gone:</b> <bdi>Error: The bite uses 84.62 %")
        .contains("Figures");
    assertThat(new Visitor(port).open(place + "/compare?from=2&to=2").body())
        .contains("the two say the same");
    Knock.Reply none = new Visitor(port).open(place + "/compare?from=1&to=9");
    assertThat(none.status()).isEqualTo(404);
    assertThat(none.body()).contains("There is no such treatment").contains("<h1>");
    assertThat(get(place + "?version=9")).contains("\"status\":404");
  }

  @Test
  void namesAreNeverMarkupAndNeverTurnTheirNeighbours() throws IOException {
    String name = "<script>alert(1)</script>\u202Egnorw " + "x".repeat(300);
    String place = store("unsafe-bite-refused", "A-8", name);
    Visitor visitor = new Visitor(port);
    for (String path : new String[] {"/?q=A-8", place, place + "/compare"}) {
      Knock.Reply reply = visitor.open(path);
      assertThat(reply.status()).isEqualTo(200);
      assertThat(reply.body()).doesNotContain("<script>alert");
      assertThat(reply.body()).containsPattern("<bdi>[^<]*&lt;script&gt;");
    }
  }

  @Test
  void nothingOnAPageNeedsInlineScriptOrStyle() throws IOException {
    String place = store("unsafe-bite-accepted", "A-9");
    Visitor visitor = new Visitor(port);
    for (String path :
        new String[] {"/", place, place + "/compare", "/rules", "/recipients", "/deliveries"}) {
      Knock.Reply reply = visitor.open(path);
      assertThat(reply.status()).as(path).isEqualTo(200);
      assertThat(reply.header("Content-Security-Policy")).contains("style-src 'self'");
      assertThat(reply.body()).doesNotContain("<style").doesNotContainPattern("\\sstyle=");
      assertThat(reply.body()).doesNotContainPattern("<script(?![^>]* src=\"/)");
      assertThat(reply.body()).doesNotContainPattern("\\son[a-z]+=\"");
    }
  }

  @Test
  void whatTheAddressSaysWrongIsTakenAsNotSaid() throws IOException {
    Visitor visitor = new Visitor(port);
    assertThat(visitor.open("/?show=x&sort=y&page=-1&q=%25").status()).isEqualTo(200);
    assertThat(visitor.open("/?page=99999").status()).isEqualTo(200);
    assertThat(visitor.open("/?q=%3Cimg%20src=x%3E").body()).doesNotContain("<img src");
    assertThat(visitor.open("/treatments/none").body()).contains("There is no such treatment");
  }

  private String store(String sample, String id) throws IOException {
    return store(sample, id, "Kowalczyk");
  }

  private String store(String sample, String id, String family) throws IOException {
    Knock.Reply reply =
        knock("POST", "/treatments").json(named(sample(sample), id, family)).reply();
    assertThat(reply.status()).isEqualTo(201);
    return reply.header("Location");
  }

  private static String named(String file, String id, String family) {
    return file.replaceFirst("\"id\": \"[^\"]+\"", "\"id\": \"" + id + "\"")
        .replaceFirst("(?s)(\"patient\".*?\"family\"\\s*:\\s*)\"[^\"]+\"", "$1\"" + family + "\"");
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
    var found =
        java.util.regex.Pattern.compile("name=\"_csrf\" value=\"([^\"]+)\"").matcher(page.body());
    assertThat(found.find()).isTrue();
    return new java.util.LinkedHashMap<>(Map.of("_csrf", found.group(1)));
  }

  private static Map<String, String> with(Map<String, String> fields, String... more) {
    Map<String, String> all = new java.util.LinkedHashMap<>(fields);
    for (int i = 0; i < more.length; i += 2) {
      all.put(more[i], more[i + 1]);
    }
    return all;
  }

  private String get(String path) throws IOException {
    return knock("GET", path).reply().body();
  }

  private static String sample(String name) throws IOException {
    return Files.readString(SAMPLES.resolve(name + ".treatment.json"));
  }

  private Knock knock(String method, String path) {
    return Knock.at(port, method, path);
  }
}
