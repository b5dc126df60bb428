package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** A person logs in on the pages with the issuer's own login form, works, and logs out. */
class LoginPagesTest extends GuardedServiceBase {

  private static final String HTML = "text/html,application/xhtml+xml";

  @Test
  void aPersonLogsInSeesTheirClinicAndLogsOut() throws IOException {
    LoginVisitor rosa = new LoginVisitor();
    LoginVisitor.Seen login = rosa.opens("http://127.0.0.1:" + port + "/");
    assertThat(login.url()).startsWith(ISSUER.address() + "/login");
    LoginVisitor.Seen home =
        rosa.sends(login, ISSUER.address() + "/login", "username=rosa&password=" + Issuer.SECRET);
    assertThat(home.url()).isEqualTo("http://127.0.0.1:" + port + "/");
    assertThat(home.status()).isEqualTo(200);
    assertThat(home.body()).contains("Dr Rosa Marsh", OF_A).doesNotContain(GuardedService.CANARIES);
    assertThat(rosa.cookie(port, "__Host-intercusp"))
        .contains("HttpOnly", "Secure", "SameSite=Lax", "Path=/");

    assertThat(rosa.opens("http://127.0.0.1:" + port + "/treatments/" + OF_B).status())
        .isEqualTo(404);
    LoginVisitor.Seen without = rosa.posts("http://127.0.0.1:" + port + "/pages/logout", "");
    assertThat(without.status()).isEqualTo(403);
    LoginVisitor.Seen out = rosa.sends(home, "http://127.0.0.1:" + port + "/pages/logout", "");
    assertThat(out.first()).startsWith(ISSUER.address() + "/connect/logout");
    assertThat(rosa.opens("http://127.0.0.1:" + port + "/").url()).startsWith(ISSUER.address());
  }

  @Test
  void whoIsLoggedInAnswersForWhatTheyAccept() throws IOException {
    String file =
        Files.readString(Path.of("sample-bundles/unsafe-bite-refused.treatment.json"))
            .replace("HL-2026-005", "ACCEPTED-1");
    mustBe(201, as(Issuer.Program.A_FULL, "POST", "/treatments").json(file).reply());
    LoginVisitor rosa = new LoginVisitor();
    LoginVisitor.Seen login = rosa.opens("http://127.0.0.1:" + port + "/");
    rosa.sends(login, ISSUER.address() + "/login", "username=rosa&password=" + Issuer.SECRET);
    LoginVisitor.Seen page = rosa.opens("http://127.0.0.1:" + port + "/treatments/ACCEPTED-1");
    assertThat(page.body())
        .containsPattern(
            "<input name=\"family\"(?=[^>]* readonly)(?=[^>]* value=\"Dr Rosa Marsh\")");
    StringBuilder form = new StringBuilder("family=Another&value=S-07&reason=Held+without+strain");
    form.append("&system=https://harbour-lane.example/staff");
    for (String name : List.of("version", "finding", "subject", "pointer")) {
      Matcher field =
          Pattern.compile("name=\"" + name + "\" value=\"([^\"]*)\"").matcher(page.body());
      assertThat(field.find()).as(name).isTrue();
      form.append('&').append(name).append('=').append(field.group(1));
    }
    rosa.sends(
        page,
        "http://127.0.0.1:" + port + "/pages/treatments/ACCEPTED-1/acceptances",
        form.toString());
    assertThat(
            read(as(Issuer.Program.A_READS, "GET", "/treatments/ACCEPTED-1").reply())
                .at("/acceptances/0/by/family")
                .asString(""))
        .isEqualTo("Dr Rosa Marsh");
  }

  @Test
  void askingForALoginCostsTheServiceNoSession() throws IOException {
    for (int i = 0; i < 20; i++) {
      Knock.Reply sentOn =
          mustBe(302, knock("GET", "/oauth2/authorization/issuer").with("Accept", HTML).reply());
      assertThat(sentOn.header("Location")).startsWith(ISSUER.address() + "/oauth2/authorize");
      assertThat(sentOn.header("Set-Cookie"))
          .contains("__Host-intercusp-login=")
          .doesNotContain("__Host-intercusp=");
    }
    Knock.Reply back =
        knock("GET", "/login/oauth2/code/issuer?code=a&state=b").with("Accept", HTML).reply();
    assertThat(back.status()).isEqualTo(401);
    assertThat(back.header("Set-Cookie")).doesNotContain("__Host-intercusp=");
  }

  @Test
  void aSessionAloneChangesNothing() throws IOException {
    LoginVisitor rosa = new LoginVisitor();
    LoginVisitor.Seen login = rosa.opens("http://127.0.0.1:" + port + "/");
    rosa.sends(login, ISSUER.address() + "/login", "username=rosa&password=" + Issuer.SECRET);
    String cookies = rosa.cookies(port);
    Knock.Reply forged =
        knock("POST", "/treatments")
            .with("Cookie", cookies)
            .json(GuardedService.ofA("FORGED"))
            .reply();
    assertThat(forged.status()).isEqualTo(403);
    Knock.Reply retry =
        knock("POST", "/pages/deliveries/none/retry")
            .with("Cookie", cookies)
            .with("Content-Type", "application/x-www-form-urlencoded")
            .json("a=b")
            .reply();
    assertThat(retry.status()).isEqualTo(403);
    Knock.Reply read = knock("GET", "/treatments/FORGED").with("Cookie", cookies).reply();
    assertThat(read.status()).isEqualTo(404);
  }

  @Test
  void thePagesRunNothingOfTheirOwnText() throws IOException {
    LoginVisitor rosa = new LoginVisitor();
    LoginVisitor.Seen login = rosa.opens("http://127.0.0.1:" + port + "/");
    rosa.sends(login, ISSUER.address() + "/login", "username=rosa&password=" + Issuer.SECRET);
    for (String path : new String[] {"/", "/treatments/" + OF_A, "/deliveries", "/recipients"}) {
      Knock.Reply page =
          knock("GET", path).with("Accept", HTML).with("Cookie", rosa.cookies(port)).reply();
      assertThat(page.status()).as(path).isEqualTo(200);
      assertThat(page.header("Content-Security-Policy"))
          .contains("default-src 'none'", "script-src 'self'", "form-action 'self' http://")
          .doesNotContain("unsafe-inline")
          .doesNotContain("unsafe-eval");
      assertThat(page.body()).doesNotContainPattern("<script(?![^>]*\\bsrc=)");
      assertThat(page.body()).doesNotContainPattern("\\son[a-z]+\\s*=\\s*[\"']");
      assertThat(page.header("Cache-Control")).contains("no-store");
    }
  }

  @Test
  void aProgramIsNeverSentToALoginPage() throws IOException {
    assertThat(knock("GET", "/treatments").with("Accept", "application/json").reply().status())
        .isEqualTo(401);
    assertThat(knock("GET", "/").with("Accept", HTML).reply().header("Location"))
        .endsWith("/oauth2/authorization/issuer");
  }
}
