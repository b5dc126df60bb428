package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.node.ObjectNode;

/** The pages on a real port, as a browser without script uses them. */
class PagesTest extends OpenServiceBase {

  @Autowired JdbcClient jdbc;

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
    assertThat(visitor.open("/deliveries").body())
        .contains("refused by the recipient")
        .as("recipients by the name that people call them")
        .contains("<bdi>Harbour General</bdi>")
        .doesNotContain("<bdi>hospital</bdi>");
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
  void withoutConsentItIsNotSaidThatNothingStopsADelivery() throws IOException {
    String consented = named(sample("mixed-dentition"), "NC-1", "Kowalczyk");
    ObjectNode file = (ObjectNode) json.readTree(consented);
    ((ObjectNode) file.path("patient")).remove("consent");
    ((ObjectNode) file.path("patient")).putArray("allergies").add("latex").add("penicillin");
    assertThat(knock("POST", "/treatments").json(file.toString()).reply().status()).isEqualTo(201);
    Visitor visitor = new Visitor(port);
    Knock.Reply page = visitor.open("/treatments/NC-1");
    assertThat(page.body())
        .contains("No consent to pass the record on is recorded")
        .contains("No finding stops a delivery; without consent nothing is sent.")
        .doesNotContain("Nothing stops a delivery.")
        .as("a finding that says to read the allergies stands beside them")
        .contains("<b>Allergies:</b> <bdi>latex; penicillin</bdi>");
    assertThat(visitor.send(page, "deliveries", Map.of("to", "hospital")).status()).isEqualTo(409);
    String with = visitor.open(store("mixed-dentition", "NC-2")).body();
    assertThat(with).contains("Nothing stops a delivery.").doesNotContain("No consent to pass");
  }

  @Test
  void aVersionThatIsNotThereIsNotATreatmentThatIsNotThere() throws IOException {
    String place = store("mixed-dentition", "V-1");
    Visitor visitor = new Visitor(port);
    Knock.Reply reply = visitor.open(place + "/compare?from=9&to=1");
    assertThat(reply.status()).isEqualTo(404);
    assertThat(reply.body()).contains("There is no version 9 of this treatment; the newest is 1.");
    assertThat(visitor.open("/treatments/V-0/compare?from=9&to=1").body())
        .contains("There is no such treatment.");
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
        .contains("<del><bdi>11 mm</bdi></del>")
        .contains("<ins><bdi>8 mm</bdi></ins>")
        .containsPattern("<b>Gone:</b> <bdi>Error: The bite uses 84.62 %")
        .contains("Figures");
    assertThat(new Visitor(port).open(place + "/compare?from=2&to=2").body())
        .contains("the two say the same");
    Knock.Reply none = new Visitor(port).open(place + "/compare?from=1&to=9");
    assertThat(none.status()).isEqualTo(404);
    assertThat(none.body())
        .contains("There is no version 9 of this treatment; the newest is 2.")
        .contains("<h1>");
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

  /** What a filter refuses is told in a browser as a page too, in the same words. */
  @Test
  void whatIsRefusedBeforeAPageIsToldAsAPage() throws IOException {
    Knock.Reply old =
        knock("POST", "/pages/deliveries/x/retry")
            .with("Accept", "text/html")
            .with("Content-Type", "application/x-www-form-urlencoded")
            .json("_csrf=old")
            .reply();
    assertThat(old.status()).isEqualTo(403);
    assertThat(old.header("Content-Type")).startsWith("text/html");
    assertThat(old.body()).contains("<h1>Not possible</h1>").contains("The page is too old");
    assertThat(old.body()).contains("Decision support for licensed clinicians");
    Knock.Reply program = knock("POST", "/pages/deliveries/x/retry").json("{}").reply();
    assertThat(program.header("Content-Type")).startsWith("application/problem+json");
  }

  @Test
  void noSpaceStandsBeforeAComma() throws IOException {
    store("mixed-dentition", "COMMA-1");
    String elsewhere =
        named(sample("mixed-dentition"), "COMMA-2", "Adeyemi")
            .replaceFirst("(?s)(\"clinic\".*?\"value\"\\s*:\\s*)\"[^\"]+\"", "$1\"quay-side\"");
    knock("POST", "/treatments").json(elsewhere).reply();
    String text = new Visitor(port).open("/?q=COMMA-1").body().replaceAll("<[^>]+>", "");
    assertThat(text).containsPattern("COMMA-1, patient P-[0-9]+, Harbour Lane");
  }

  @Test
  void whatTheAddressSaysWrongIsTakenAsNotSaid() throws IOException {
    Visitor visitor = new Visitor(port);
    assertThat(visitor.open("/?show=x&sort=y&page=-1&q=%25").status()).isEqualTo(200);
    assertThat(visitor.open("/?page=99999").status()).isEqualTo(200);
    assertThat(visitor.open("/?q=%3Cimg%20src=x%3E").body()).doesNotContain("<img src");
    assertThat(visitor.open("/treatments/none").body()).contains("There is no such treatment");
    for (String path : new String[] {"/none", "/treatments/none/", "/pages/none"}) {
      Knock.Reply reply = visitor.open(path);
      assertThat(reply.status()).as(path).isEqualTo(404);
      assertThat(reply.body()).as(path).contains("<h1>Not possible</h1>", "no such page");
    }
    String place = store("unsafe-bite-refused", "A-10");
    for (String path : new String[] {place + "/compare?from=abc", "/registry/report?cut-off=x"}) {
      Knock.Reply reply = visitor.open(path);
      assertThat(reply.status()).as(path).isEqualTo(400);
      assertThat(reply.header("Content-Type")).as(path).startsWith("text/html");
      assertThat(reply.body()).as(path).contains("<h1>Not possible</h1>");
    }
  }
}
