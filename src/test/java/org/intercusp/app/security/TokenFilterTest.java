package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.servlet.http.Cookie;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockFilterChain;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;

/** On a shared machine only who has the token of this start is let in. */
class TokenFilterTest {

  private final StartToken token = new StartToken();
  private final TokenFilter filter = new TokenFilter(token, new Refusals(Canonicals.RESERVED));

  @Test
  void nobodyWithoutIt() throws Exception {
    assertThat(passes(request("/treatments"))).isFalse();
    MockHttpServletRequest wrong = request("/treatments");
    wrong.addHeader("Authorization", "Bearer " + new StartToken().value());
    assertThat(passes(wrong)).isFalse();
  }

  /** RFC 9110, 15.5.2: a 401 says how one tells who one is. */
  @Test
  void aRefusalSaysHow() throws Exception {
    MockHttpServletResponse response = new MockHttpServletResponse();
    filter.doFilter(request("/treatments"), response, new MockFilterChain());
    assertThat(response.getStatus()).isEqualTo(401);
    assertThat(response.getHeader("WWW-Authenticate")).isEqualTo("Bearer realm=\"intercusp\"");
  }

  @Test
  void asABearerToken() throws Exception {
    MockHttpServletRequest request = request("/treatments");
    request.addHeader("Authorization", "Bearer " + token.value());
    assertThat(passes(request)).isTrue();
  }

  @Test
  void byTheLinkWhichLeavesACookie() throws Exception {
    MockHttpServletRequest link = request("/");
    link.addParameter("token", token.value());
    MockHttpServletResponse response = new MockHttpServletResponse();
    filter.doFilter(link, response, new MockFilterChain());
    assertThat(response.getRedirectedUrl()).isEqualTo("/");
    String cookie = String.valueOf(response.getHeader("Set-Cookie"));
    assertThat(cookie).contains("HttpOnly", "SameSite=Strict");

    MockHttpServletRequest next = request("/treatments");
    String[] parts = cookie.split(";", -1)[0].split("=", 2);
    next.setCookies(new Cookie(parts[0], parts[1]));
    assertThat(passes(next)).isTrue();
  }

  @Test
  void healthStaysOpen() throws Exception {
    assertThat(passes(request("/actuator/health"))).isTrue();
    assertThat(passes(request("/actuator/prometheus"))).isFalse();
  }

  private boolean passes(MockHttpServletRequest request) throws Exception {
    MockFilterChain chain = new MockFilterChain();
    filter.doFilter(request, new MockHttpServletResponse(), chain);
    return chain.getRequest() != null;
  }

  private static MockHttpServletRequest request(String path) {
    return new MockHttpServletRequest("GET", path);
  }
}
