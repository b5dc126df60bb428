package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.time.Duration;
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

  private final HandSetTime time = new HandSetTime();
  private final Rates rates =
      new Rates(
          new RateSettings(3, 2, 50, 1_000, DataSize.ofMegabytes(1), DataSize.ofMegabytes(2)),
          new Refusals(Canonicals.RESERVED),
          time);

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
  void whoComesWhenToldIsLetIn() throws IOException {
    Caller busy = caller("busy");
    for (int i = 0; i < 3; i++) {
      asked(busy);
    }
    // A request every 20 s: 19.3 s are left, which are told in whole ones.
    time.goOn(Duration.ofMillis(700));
    Duration told = Duration.ofSeconds(Long.parseLong(asked(busy).getHeader("Retry-After")));
    assertThat(told).isEqualTo(Duration.ofSeconds(20));
    time.goOn(told);
    assertThat(asked(busy).getStatus()).isEqualTo(200);
    assertThat(asked(busy).getStatus()).isEqualTo(429);
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

  @Test
  void whoChangesTheirAddressWithinTheirNetworkIsTheSame() throws IOException {
    int status = 200;
    for (int i = 0; i < 60; i++) {
      status = from("2001:db8:0:1::" + Integer.toHexString(i)).getStatus();
    }
    assertThat(status).isEqualTo(429);
    assertThat(from("2001:db8:0:2::1").getStatus()).isEqualTo(200);
    assertThat(asked(Caller.NOBODY, "2001:db8::1").getStatus()).isEqualTo(200);
    assertThat(asked(Caller.NOBODY, "2001:db8::2").getStatus()).isEqualTo(200);
    assertThat(asked(Caller.NOBODY, "2001:db8::3").getStatus()).isEqualTo(429);
  }

  private MockHttpServletResponse from(String address) throws IOException {
    MockHttpServletResponse response = new MockHttpServletResponse();
    rates.isTooMuch(request(address), response);
    return response;
  }

  private static MockHttpServletRequest request(String address) {
    MockHttpServletRequest request = new MockHttpServletRequest("GET", "/treatments");
    request.setRemoteAddr(address);
    return request;
  }

  private MockHttpServletResponse asked(Caller caller) throws IOException {
    return asked(caller, "127.0.0.1");
  }

  private MockHttpServletResponse asked(Caller caller, String address) throws IOException {
    MockHttpServletResponse response = new MockHttpServletResponse();
    boolean tooMuch = rates.isTooMuch(caller, request(address), response);
    assertThat(tooMuch).isEqualTo(response.getStatus() == 429);
    return response;
  }

  private static Caller caller(String subject) {
    return new Caller(
        subject, subject, Caller.Kind.PROGRAM, new Reach.Clinics(Set.of()), Scopes.NONE);
  }
}
