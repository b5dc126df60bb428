package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** What two clinics both have, each sees of its own. */
class OwnClinicTest extends GuardedServiceBase {

  @ParameterizedTest
  @ValueSource(strings = {"", "/history", "/figures", "/findings", "/bundle", "/summary"})
  void onesOwnIsThereThoughAnotherClinicHasTheSameId(String below) throws IOException {
    Knock.Reply reply = as(Program.A_READS, "GET", "/treatments/" + SHARED + below).reply();
    assertThat(reply.status()).isEqualTo(200);
    assertThat(reply.body()).doesNotContain(GuardedService.CANARIES);
    Knock.Reply named =
        as(
                Program.A_READS,
                "GET",
                "/treatments/"
                    + SHARED
                    + below
                    + "?clinic="
                    + GuardedService.CLINICS
                    + "%7Cquay-side")
            .reply();
    assertThat(named.status()).isEqualTo(404);
    assertThat(named.body()).doesNotContain("quay-side");
  }

  @Test
  void pagesOfAListHoldAndCountOnesOwnOnly() throws IOException {
    JsonNode ofB = read(as(Program.B_FULL, "GET", "/treatments?count=1").reply());
    List<String> seen = new ArrayList<>();
    int total = 0;
    String after = "?count=1";
    while (!after.isEmpty()) {
      JsonNode page = read(as(Program.A_READS, "GET", "/treatments" + after).reply());
      total = page.path("total").intValue();
      assertThat(page.toString()).doesNotContain(GuardedService.CANARIES);
      page.path("treatments").forEach(one -> seen.add(one.path("treatment").asString("")));
      String next = page.path("next").asString("");
      after = next.isEmpty() ? "" : "?count=1&after=" + next;
    }
    assertThat(seen).contains(OF_A, SHARED).hasSize(total);
    String theirs = ofB.path("next").asString("");
    assertThat(theirs).isNotEmpty();
    Knock.Reply behind = as(Program.A_READS, "GET", "/treatments?after=" + theirs).reply();
    assertThat(behind.body()).doesNotContain(GuardedService.CANARIES).doesNotContain("quay-side");
  }
}
