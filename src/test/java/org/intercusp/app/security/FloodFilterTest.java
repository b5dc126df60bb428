package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.servlet.FilterChain;
import jakarta.servlet.http.HttpServletResponse;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.intercusp.access.Caller;
import org.intercusp.access.Reach;
import org.intercusp.access.Scopes;
import org.intercusp.fhir.Canonicals;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.util.unit.DataSize;

/** A flood of junk from an address does not lock out who has proved to be somebody. */
class FloodFilterTest {

  private static final int CALLER = 30;
  private static final int NOBODY = 4;
  private static final int ADDRESS = 10;

  private final Rates rates =
      new Rates(
          new RateSettings(
              CALLER, NOBODY, ADDRESS, 1_000, DataSize.ofMegabytes(1), DataSize.ofMegabytes(2)),
          new Refusals(Canonicals.RESERVED),
          new HandSetTime());
  private final FloodFilter filter = new FloodFilter(rates, login());
  private int checked;

  @Test
  void junkIsCheckedOnlySoOften() throws Exception {
    for (int i = 0; i < ADDRESS; i++) {
      assertThat(asks("Bearer junk" + i, "203.0.113.7")).isEqualTo(401);
    }
    assertThat(asks("Bearer junk", "203.0.113.7")).isEqualTo(429);
    assertThat(checked).isEqualTo(ADDRESS);
    assertThat(asks("Bearer junk", "203.0.113.8")).isEqualTo(401);
  }

  @Test
  void whoProvedToBeSomebodyPassesBesideAFlood() throws Exception {
    assertThat(asks("Bearer good-1", "203.0.113.7")).isEqualTo(200);
    floods("203.0.113.7");
    for (int i = 0; i < ADDRESS; i++) {
      assertThat(asks("Bearer good-1", "203.0.113.7")).isEqualTo(200);
    }
    assertThat(asks("Bearer good-2", "203.0.113.7")).isEqualTo(429);
  }

  @Test
  void aSessionPassesBesideAFlood() throws Exception {
    floods("203.0.113.7");
    MockHttpServletRequest request = request(null, "203.0.113.7");
    request.getSession(true);
    assertThat(sent(request)).isEqualTo(200);
    MockHttpServletRequest junk = request("Bearer junk", "203.0.113.7");
    junk.getSession(true);
    assertThat(sent(junk)).isEqualTo(429);
  }

  @Test
  void goodTokensUseUpNothingOfTheirAddress() throws Exception {
    for (int i = 0; i < 3 * ADDRESS; i++) {
      assertThat(asks("Bearer good-" + i, "203.0.113.7")).isEqualTo(200);
    }
  }

  @Test
  void aTokenThatIsNoLongerGoodIsJunk() throws Exception {
    assertThat(asks("Bearer good-1", "203.0.113.7")).isEqualTo(200);
    withdrawn = "Bearer good-1";
    for (int i = 0; i <= ADDRESS; i++) {
      assertThat(asks("Bearer good-1", "203.0.113.7")).isEqualTo(401);
    }
    assertThat(asks("Bearer good-1", "203.0.113.7")).isEqualTo(429);
  }

  @Test
  void oneGoodTokenDoesNotBuyChecksWithoutEnd() throws Exception {
    for (int i = 0; i < 10 * CALLER; i++) {
      asks("Bearer good-1", "203.0.113." + i % 200);
    }
    assertThat(checked).isEqualTo(CALLER);
    assertThat(asks("Bearer good-1", "203.0.113.7")).isEqualTo(429);
  }

  private String withdrawn = "";

  private void floods(String address) throws Exception {
    for (int i = 0; i < 5 * ADDRESS; i++) {
      asks("Bearer junk" + i, address);
    }
  }

  private int asks(String token, String address) throws Exception {
    return sent(request(token, address));
  }

  private int sent(MockHttpServletRequest request) throws Exception {
    MockHttpServletResponse response = new MockHttpServletResponse();
    filter.doFilter(request, response, checking());
    return response.getStatus();
  }

  /** What stands behind the filter: the check of the token, then the count of the caller. */
  private FilterChain checking() {
    return (request, response) -> {
      checked++;
      MockHttpServletRequest asked = (MockHttpServletRequest) request;
      HttpServletResponse answer = (HttpServletResponse) response;
      String token = asked.getHeader("Authorization");
      if (token != null && (token.startsWith("Bearer junk") || token.equals(withdrawn))) {
        answer.setStatus(401);
        return;
      }
      Caller caller = caller(token == null ? "rosa" : token);
      asked.setAttribute(CallerFilter.CALLER, caller);
      assertThat(rates.isTooMuch(caller, asked, answer)).isFalse();
    };
  }

  private static MockHttpServletRequest request(@Nullable String token, String address) {
    MockHttpServletRequest request = new MockHttpServletRequest("GET", "/treatments");
    request.setRemoteAddr(address);
    if (token != null) {
      request.addHeader("Authorization", token);
    }
    return request;
  }

  private static Caller caller(String subject) {
    return new Caller(
        subject, subject, Caller.Kind.PROGRAM, new Reach.Clinics(Set.of()), Scopes.NONE);
  }

  static LoginSettings login() {
    return new LoginSettings(
        URI.create("https://issuer.example"),
        "intercusp",
        "tenant",
        Map.of("harbour-lane", List.of("*")),
        Duration.ofSeconds(30),
        new LoginSettings.Client("pages", Path.of("secret"), Set.of("openid")));
  }
}
