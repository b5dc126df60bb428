package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Set;
import org.intercusp.access.Caller;
import org.intercusp.access.Reach;
import org.intercusp.access.Scopes;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.util.unit.DataSize;

class RatesTest {

  private final Rates rates =
      new Rates(
          new RateSettings(3, 2, 50, 1_000, DataSize.ofMegabytes(1), DataSize.ofMegabytes(2)),
          new Refusals(Canonicals.RESERVED));

  @Test
  void whoComesTooOftenIsToldWhenToComeAgain() throws IOException {
    Caller busy = caller("busy");
    for (int i = 0; i < 3; i++) {
      assertThat(asked(busy).getStatus()).isEqualTo(200);
    }
    MockHttpServletResponse refused = asked(busy);
    assertThat(refused.getStatus()).isEqualTo(429);
    assertThat(Integer.parseInt(refused.getHeader("Retry-After"))).isBetween(1, 60);
    assertThat(refused.getContentAsString()).contains("Too many requests");
    assertThat(asked(caller("other")).getStatus()).isEqualTo(200);
  }

  @Test
  void whoIsNotKnownMayComeLessOften() throws IOException {
    assertThat(asked(Caller.NOBODY).getStatus()).isEqualTo(200);
    assertThat(asked(Caller.NOBODY).getStatus()).isEqualTo(200);
    assertThat(asked(Caller.NOBODY).getStatus()).isEqualTo(429);
  }

  @Test
  void whoIsAtTheMachineMayComeOften() throws IOException {
    for (int i = 0; i < 500; i++) {
      assertThat(asked(Caller.LOCAL).getStatus()).isEqualTo(200);
    }
  }

  private MockHttpServletResponse asked(Caller caller) throws IOException {
    MockHttpServletResponse response = new MockHttpServletResponse();
    boolean tooMuch =
        rates.isTooMuch(caller, new MockHttpServletRequest("GET", "/treatments"), response);
    assertThat(tooMuch).isEqualTo(response.getStatus() == 429);
    return response;
  }

  private static Caller caller(String subject) {
    return new Caller(
        subject, subject, Caller.Kind.PROGRAM, new Reach.Clinics(Set.of()), Scopes.NONE);
  }
}
