package org.intercusp.app.security;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.mock.env.MockEnvironment;

class BindingTest {

  @ParameterizedTest
  @ValueSource(strings = {"0.0.0.0", "::", "192.0.2.7", "", " "})
  void withoutAnIssuerNobodyElseIsLetIn(String address) {
    assertThatThrownBy(() -> start(null, address, null))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("server.address")
        .hasMessageContaining("intercusp.login.issuer");
    assertThatCode(() -> start(URI.create("https://issuer.example"), address, null))
        .doesNotThrowAnyException();
  }

  @ParameterizedTest
  @ValueSource(strings = {"127.0.0.1", "127.9.9.9", "::1", "localhost"})
  void theLoopbackAddressNeedsNone(String address) {
    assertThatCode(() -> start(null, address, null)).doesNotThrowAnyException();
    assertThatThrownBy(() -> start(null, address, "0.0.0.0"))
        .hasMessageContaining("management.server.address");
  }

  @Test
  void anIssuerNeedsAnAudienceAndAClientAnIssuer() {
    assertThatThrownBy(() -> settings(URI.create("https://issuer.example"), null, null))
        .hasMessageContaining("intercusp.login.audience");
    LoginSettings.Client client =
        new LoginSettings.Client("pages", java.nio.file.Path.of("secret"), java.util.Set.of());
    assertThatThrownBy(() -> settings(null, null, client))
        .hasMessageContaining("intercusp.login.issuer");
  }

  private static void start(@Nullable URI issuer, String address, @Nullable String management)
      throws Exception {
    MockEnvironment environment = new MockEnvironment().withProperty("server.address", address);
    if (management != null) {
      environment.setProperty("management.server.address", management);
    }
    new Binding(settings(issuer, "https://service.example", null), environment)
        .afterPropertiesSet();
  }

  private static LoginSettings settings(
      @Nullable URI issuer, @Nullable String audience, LoginSettings.@Nullable Client client) {
    return new LoginSettings(
        issuer,
        audience,
        "tenant",
        Map.of("a", List.of("https://clinics.example|a")),
        Duration.ofSeconds(30),
        client);
  }
}
