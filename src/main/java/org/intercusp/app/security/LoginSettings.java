package org.intercusp.app.security;

import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.intercusp.access.Clinic;
import org.intercusp.access.Reach;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Whose word is taken for who somebody is. Without an issuer nobody logs in, and the service stays
 * on the loopback address.
 *
 * @param issuer the authorization server, by the issuer identifier of its metadata (RFC 8414)
 * @param audience what a token must have been issued for: the name of this service there
 * @param tenantClaim the claim that says which tenant a caller belongs to
 * @param tenants for each tenant the clinics in its reach, written {@code SYSTEM|VALUE}; {@code *}
 *     reaches every clinic
 * @param skew how far the clocks may be apart; 30 s is common practice, no source
 * @param client how people log in on the pages; absent where only programs come
 */
@ConfigurationProperties("intercusp.login")
public record LoginSettings(
    @Nullable URI issuer,
    @Nullable String audience,
    @DefaultValue("tenant") String tenantClaim,
    @DefaultValue Map<String, List<String>> tenants,
    @DefaultValue("30s") Duration skew,
    @Nullable Client client) {

  private static final String EVERY_CLINIC = "*";

  /**
   * This service as a client of the authorization server.
   *
   * @param id its client id there
   * @param secretFile a file with its secret
   * @param scopes what is asked for at a login
   */
  public record Client(
      String id,
      Path secretFile,
      @DefaultValue({"openid", "profile", "user/*.cruds"}) Set<String> scopes) {
    public Client {
      scopes = Set.copyOf(scopes);
    }
  }

  public LoginSettings {
    Map<String, List<String>> copy = new LinkedHashMap<>();
    tenants.forEach((name, clinics) -> copy.put(name, List.copyOf(clinics)));
    tenants = Map.copyOf(copy);
    tenants.values().stream()
        .flatMap(List::stream)
        .filter(clinic -> !clinic.equals(EVERY_CLINIC))
        .forEach(Clinic::parse);
    if (issuer != null && (audience == null || audience.isBlank())) {
      throw new IllegalArgumentException(
          "intercusp.login.audience must be set where intercusp.login.issuer is");
    }
    if (issuer == null && client != null) {
      throw new IllegalArgumentException(
          "intercusp.login.issuer must be set where intercusp.login.client is");
    }
  }

  /** Whether people log in. */
  public boolean isOn() {
    return issuer != null;
  }

  /** The reach of a tenant; nothing for one that is not configured. */
  Reach reach(@Nullable String tenant) {
    List<String> clinics = tenant == null ? List.of() : tenants.getOrDefault(tenant, List.of());
    if (clinics.contains(EVERY_CLINIC)) {
      return new Reach.Everywhere();
    }
    return new Reach.Clinics(clinics.stream().map(Clinic::parse).collect(Collectors.toSet()));
  }
}
