package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Base64;
import java.util.List;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;

/** What is refused before any door is reached, and what the refusal tells. */
class TokenRefusalTest extends GuardedServiceBase {

  @Test
  void aChallengeSaysWhatIsMissingAndNoMore() throws IOException {
    Knock.Reply none = knock("GET", "/treatments").reply();
    assertThat(none.header("WWW-Authenticate"))
        .startsWith("Bearer realm=\"intercusp\"")
        .doesNotContain("error");
    Knock.Reply expired = as(Program.EXPIRED, "GET", "/treatments").reply();
    assertThat(expired.header("WWW-Authenticate"))
        .startsWith("Bearer realm=\"intercusp\", error=\"invalid_token\"")
        .doesNotContain("description");
    Knock.Reply narrow = as(Program.NARROW, "GET", "/treatments").reply();
    assertThat(narrow.header("WWW-Authenticate")).contains("insufficient_scope");
  }

  @Test
  void aTokenOfOurOwnMakingIsRefused() throws IOException {
    String real = token(Program.OPERATOR);
    String claims = real.substring(real.indexOf('.') + 1, real.lastIndexOf('.'));
    String unsigned = coded("{\"alg\":\"none\"}") + "." + claims + ".";
    String shared = coded("{\"alg\":\"HS256\",\"typ\":\"JWT\"}") + "." + claims + ".c2lnbmVk";
    String changed = real.substring(0, real.lastIndexOf('.')) + ".c2lnbmVk";
    for (String token : List.of(unsigned, shared, changed, "nothing")) {
      assertThat(
              knock("GET", "/treatments").with("Authorization", "Bearer " + token).reply().status())
          .isEqualTo(401);
    }
    assertThat(knock("GET", "/treatments?access_token=" + real).reply().status()).isEqualTo(401);
  }

  private static String coded(String text) {
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(text.getBytes(java.nio.charset.StandardCharsets.UTF_8));
  }

  @Test
  void tooLongABodyIsRefusedBeforeItIsRead() throws IOException {
    Knock.Reply reply =
        as(Program.A_FULL, "POST", "/treatments")
            .json("{}")
            .with("Content-Length", "400000000")
            .reply();
    assertThat(reply.status()).isEqualTo(413);
  }
}
