package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A form that comes without what it has is the sender's fault, told to a person as a page. */
class WrongFormsTest extends OpenServiceBase {

  private static final Map<String, String> ANSWER =
      Map.of(
          "version", "1",
          "finding", "bite-share-exceeded",
          "subject", "bite-1",
          "pointer", "/bites/0/registeredReading",
          "family", "Okonjo",
          "value", "S-07",
          "system", "https://harbour-lane.example/staff",
          "reason", "Held edge to edge for ten minutes without strain.");

  @ParameterizedTest
  @ValueSource(
      strings = {"finding", "subject", "pointer", "family", "value", "system", "reason", "version"})
  void anAnswerThatLacksAFieldIsNotTaken(String absent) throws IOException {
    String place = store("unsafe-bite-refused", "FORM-" + absent);
    Map<String, String> fields = new LinkedHashMap<>(ANSWER);
    fields.remove(absent);
    refused(send(place, "/pages" + place + "/acceptances", fields));
    assertThat(json.readTree(get(place + "/history")).size()).isEqualTo(1);
  }

  @Test
  void aVersionThatIsNoNumberIsNamed() throws IOException {
    String place = store("unsafe-bite-refused", "FORM-NUMBER");
    Map<String, String> fields = new LinkedHashMap<>(ANSWER);
    fields.put("version", "newest");
    Knock.Reply reply = send(place, "/pages" + place + "/acceptances", fields);
    refused(reply);
    assertThat(reply.body()).contains("version has a value that cannot be read as one.");
    refused(send(place, "/pages" + place + "/deliveries", Map.of("to", "hospital")));
  }

  @Test
  void anAddressThatIsNotWrittenAsOneIsToldAsAPage() throws IOException {
    refused(new Visitor(port).open("/?q=%"));
  }

  @Test
  void aFormForAFileThatIsNotOneIsNotTaken() throws IOException {
    refused(send("/pages/treatments/new", "/pages/treatments", Map.of("file", "x")));
  }

  @Test
  void anAddressThatTakesAFormShowsNothing() throws IOException {
    String place = store("unsafe-bite-refused", "FORM-SHOWN");
    Knock.Reply reply = new Visitor(port).open("/pages" + place + "/acceptances");
    assertThat(reply.status()).isEqualTo(405);
    assertThat(reply.header("Allow")).contains("POST");
    assertThat(reply.header("Content-Type")).startsWith("text/html");
    assertThat(reply.body()).contains("<h1>Not possible</h1>");
  }

  private Knock.Reply send(String page, String path, Map<String, String> fields)
      throws IOException {
    Visitor visitor = new Visitor(port);
    Matcher token =
        Pattern.compile("name=\"_csrf\" value=\"([^\"]+)\"").matcher(visitor.open(page).body());
    assertThat(token.find()).isTrue();
    Map<String, String> all = new LinkedHashMap<>(fields);
    all.put("_csrf", token.group(1));
    return visitor.post(path, all);
  }

  private static void refused(Knock.Reply reply) {
    assertThat(reply.status()).as(reply.body()).isBetween(400, 422);
    assertThat(reply.header("Content-Type")).startsWith("text/html");
  }
}
