package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.intercusp.web.Knock;
import org.junit.jupiter.api.Test;

/** Where a treatment is told to be is where it is, and a change is made under its condition. */
class TreatmentPlacesTest extends FhirService {

  @Test
  void theClinicIsPartOfThePlaceWhereTwoHaveTheSameId() throws IOException {
    String file = sample("mixed-dentition").replaceFirst("\"HL-[^\"]+\"", "\"HL-2026-802\"");
    Knock.Reply first = knock("POST", "/treatments").json(file).reply();
    assertThat(first.status()).as(first.body()).isEqualTo(201);
    assertThat(first.header("Location")).isEqualTo("/treatments/HL-2026-802");
    String other =
        file.replaceFirst("(?s)(\"clinic\".*?\"value\"\\s*:\\s*)\"[^\"]+\"", "$1\"other one\"");
    Knock.Reply second = knock("POST", "/treatments").json(other).reply();
    assertThat(second.status()).as(second.body()).isEqualTo(201);
    String place = second.header("Location");
    assertThat(place).startsWith("/treatments/HL-2026-802?clinic=").endsWith("%7Cother%20one");
    assertThat(knock("GET", place).reply().body()).contains("other one");
    assertThat(knock("GET", "/treatments/HL-2026-802").reply().status()).isEqualTo(409);
  }

  @Test
  void anyVersionOrOneOfSeveralMayBeReplaced() throws IOException {
    String file = sample("mixed-dentition").replaceFirst("\"HL-[^\"]+\"", "\"HL-2026-803\"");
    String place = knock("POST", "/treatments").json(file).reply().header("Location");
    for (String matching : new String[] {"*", "\"7\", \"1\"", "\"x\",W/\"1\"", "1"}) {
      Knock.Reply reply = knock("PUT", place).with("If-Match", matching).json(file).reply();
      assertThat(reply.status()).as(matching).isEqualTo(200);
      assertThat(reply.header("ETag")).isEqualTo("\"1\"");
    }
    for (String stale : new String[] {"\"7\", \"8\"", "\"x\"", "\"*\"", ""}) {
      Knock.Reply reply = knock("PUT", place).with("If-Match", stale).json(file).reply();
      assertThat(reply.status()).as(stale).isEqualTo(412);
    }
  }

  private Knock knock(String method, String path) {
    return Knock.at(port, method, path);
  }
}
