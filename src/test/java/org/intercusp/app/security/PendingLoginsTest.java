package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.servlet.http.Cookie;
import java.time.Duration;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.security.oauth2.core.endpoint.OAuth2AuthorizationRequest;

/** A login that was begun is kept by the browser alone, which cannot read or change it. */
class PendingLoginsTest {

  private static final String STATE = "a-state-of-32-bytes-in-base64-url=";
  private static final String VERIFIER = "the-verifier-that-only-this-service-knows";

  /** What browsers keep of a cookie at least (RFC 6265, section 6.1). */
  private static final int MOST_OF_A_COOKIE = 4_096;

  private final HandSetClock clock = new HandSetClock();
  private final PendingLogins logins = new PendingLogins(clock);
  private final OAuth2AuthorizationRequest begun =
      OAuth2AuthorizationRequest.authorizationCode()
          .authorizationUri("https://issuer.example/oauth2/authorize")
          .clientId("pages")
          .redirectUri("https://intercusp.example/login/oauth2/code/issuer")
          .scopes(Set.of("openid", "profile", "user/*.cruds"))
          .state(STATE)
          .additionalParameters(Map.of("nonce", "a-hash", "code_challenge", "of-the-verifier"))
          .attributes(Map.of("registration_id", "issuer", "code_verifier", VERIFIER))
          .build();

  @Test
  void comesBackWithTheBrowserThatBeganIt() {
    OAuth2AuthorizationRequest back =
        Objects.requireNonNull(logins.loadAuthorizationRequest(back(cookie(), STATE)));
    assertThat(back).usingRecursiveComparison().isEqualTo(begun);
    assertThat(back.<String>getAttribute("code_verifier")).isEqualTo(VERIFIER);
  }

  @Test
  void theServiceKeepsNothingAndTheCookieTellsNothing() {
    MockHttpServletRequest request = new MockHttpServletRequest();
    MockHttpServletResponse response = new MockHttpServletResponse();
    logins.saveAuthorizationRequest(begun, request, response);
    assertThat(request.getSession(false)).isNull();
    String line = String.valueOf(response.getHeader("Set-Cookie"));
    assertThat(line)
        .hasSizeLessThan(MOST_OF_A_COOKIE)
        .contains("HttpOnly", "Secure", "SameSite=Lax", "Path=/", "Max-Age=300")
        .doesNotContain(VERIFIER);
  }

  @Test
  void anotherLoginsStateFindsNothing() {
    assertThat(logins.loadAuthorizationRequest(back(cookie(), "another"))).isNull();
    assertThat(logins.loadAuthorizationRequest(back(null, STATE))).isNull();
    assertThat(logins.loadAuthorizationRequest(back(cookie(), null))).isNull();
  }

  @Test
  void notAfterTheTimeALoginMayTake() {
    Cookie cookie = cookie();
    clock.goOn(PendingLogins.LONGEST.minusSeconds(2));
    assertThat(logins.loadAuthorizationRequest(back(cookie, STATE))).isNotNull();
    clock.goOn(Duration.ofSeconds(3));
    assertThat(logins.loadAuthorizationRequest(back(cookie, STATE))).isNull();
  }

  @Test
  void nothingThatIsNotOurs() {
    Cookie cookie = cookie();
    PendingLogins ofAnotherStart = new PendingLogins(clock);
    assertThat(ofAnotherStart.loadAuthorizationRequest(back(cookie, STATE))).isNull();
    String value = cookie.getValue();
    int last = value.length() - 3;
    char other = value.charAt(last) == 'A' ? 'B' : 'A';
    cookie.setValue(value.substring(0, last) + other + value.substring(last + 1));
    assertThat(logins.loadAuthorizationRequest(back(cookie, STATE))).isNull();
    cookie.setValue("e30.e30.e30");
    assertThat(logins.loadAuthorizationRequest(back(cookie, STATE))).isNull();
  }

  @Test
  void isTakenOutOfTheBrowserWhenItEnds() {
    MockHttpServletResponse response = new MockHttpServletResponse();
    assertThat(logins.removeAuthorizationRequest(back(cookie(), STATE), response)).isNotNull();
    assertThat(response.getHeader("Set-Cookie"))
        .contains(PendingLogins.COOKIE + "=;", "Max-Age=0", "Path=/", "Secure");
  }

  private Cookie cookie() {
    MockHttpServletResponse response = new MockHttpServletResponse();
    logins.saveAuthorizationRequest(begun, new MockHttpServletRequest(), response);
    return Objects.requireNonNull(response.getCookie(PendingLogins.COOKIE));
  }

  private static MockHttpServletRequest back(Cookie cookie, String state) {
    MockHttpServletRequest request = new MockHttpServletRequest("GET", "/login/oauth2/code/issuer");
    if (cookie != null) {
      request.setCookies(cookie);
    }
    if (state != null) {
      request.setParameter("state", state);
    }
    return request;
  }
}
