package org.intercusp.app;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import javax.net.ssl.SSLContext;
import org.intercusp.exchange.authorization.Authorization;
import org.intercusp.exchange.authorization.SigningKeys;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.wire.Target;
import org.intercusp.exchange.wire.Vicinity;
import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.boot.ssl.NoSuchSslBundleException;
import org.springframework.boot.ssl.SslBundles;

/**
 * Recipients by name. What is wrong with one is said with the name of its property.
 *
 * @param recipients each with the base URL of its records server
 */
@ConfigurationProperties("intercusp")
record RecipientSettings(@DefaultValue Map<String, Entry> recipients) {

  /**
   * One recipient. At most one of {@code token}, {@code tokenFile} and {@code backend}.
   *
   * @param title what people call it; its name where absent
   * @param url FHIR base URL
   * @param scope hospital, referrer, laboratory or registry
   * @param token a bearer token, best from the environment: INTERCUSP_RECIPIENTS_NAME_TOKEN
   * @param tokenFile a file with a bearer token
   * @param backend SMART Backend Services
   * @param tlsBundle the name of a {@code spring.ssl.bundle} with our certificate for it
   * @param vicinity {@code this-machine-too} where its host name leads to a loopback or link-local
   *     address on purpose
   * @param pollEvery how often it is asked what its people changed, such as {@code 5m}; never where
   *     absent
   */
  record Entry(
      @Nullable String title,
      @Nullable URI url,
      @Nullable String scope,
      @Nullable String token,
      @Nullable Path tokenFile,
      @Nullable BackendEntry backend,
      @Nullable String tlsBundle,
      @DefaultValue("elsewhere-only") Vicinity vicinity,
      @Nullable Duration pollEvery) {

    /** Without the token. */
    @Override
    public String toString() {
      return "Entry[" + url + "]";
    }
  }

  /**
   * We as a client of the recipient's authorization server.
   *
   * @param clientId what it calls us
   * @param tokenEndpoint where tokens are asked for; found by the FHIR base where absent
   * @param keyFile a private JWK set that its owner alone may read
   * @param kid which of its keys signs; may be absent where there is only one
   * @param algorithm RS384 or ES384; that of the key where absent
   * @param scopes what is asked for
   */
  record BackendEntry(
      @DefaultValue("") String clientId,
      @Nullable URI tokenEndpoint,
      @Nullable Path keyFile,
      @Nullable String kid,
      @Nullable String algorithm,
      @DefaultValue("system/*.cruds") List<String> scopes) {}

  Recipients named(SslBundles bundles) {
    Map<String, Recipient> all = new TreeMap<>();
    recipients.forEach((name, entry) -> all.put(name, recipient(name, entry, bundles)));
    return new Recipients(all.values());
  }

  /** The keys that the recipients' authorization servers must know. */
  static Collection<SigningKeys> keys(Recipients recipients) {
    return recipients.all().stream()
        .map(one -> one.target().authorization())
        .filter(Authorization.Backend.class::isInstance)
        .map(one -> ((Authorization.Backend) one).keys())
        .toList();
  }

  private static Recipient recipient(String name, Entry entry, SslBundles bundles) {
    String place = "intercusp.recipients." + name;
    if (entry.url() == null) {
      throw new IllegalArgumentException(place + ".url must be set");
    }
    Authorization authorization = authorization(place, entry);
    try {
      SSLContext tls = entry.tlsBundle() == null ? null : tls(entry.tlsBundle(), bundles);
      Target target = new Target(entry.url(), authorization, tls, entry.vicinity());
      String title = entry.title() == null ? name : entry.title();
      return new Recipient(name, title, target, scope(place, entry.scope()), entry.pollEvery());
    } catch (NoSuchSslBundleException e) {
      throw new IllegalArgumentException(
          place + ".tls-bundle: there is no spring.ssl.bundle named " + entry.tlsBundle(), e);
    } catch (IllegalArgumentException e) {
      String said = String.valueOf(e.getMessage());
      throw new IllegalArgumentException(said.startsWith(place) ? said : place + ": " + said, e);
    }
  }

  private static SSLContext tls(String bundle, SslBundles bundles) {
    try {
      return bundles.getBundle(bundle).createSslContext();
    } catch (IllegalStateException e) {
      throw new IllegalArgumentException("tls-bundle cannot be read: " + bundle, e);
    }
  }

  private static ConsentScope scope(String place, @Nullable String scope) {
    for (ConsentScope one : ConsentScope.values()) {
      if (one.name().equalsIgnoreCase(scope)) {
        return one;
      }
    }
    throw new IllegalArgumentException(
        place
            + ".scope is one of "
            + List.of(ConsentScope.values()).toString().toLowerCase(Locale.ROOT));
  }

  private static Authorization authorization(String place, Entry entry) {
    long given =
        List.of(entry.token() != null, entry.tokenFile() != null, entry.backend() != null).stream()
            .filter(one -> one)
            .count();
    if (given > 1) {
      throw new IllegalArgumentException(
          place + " has more than one of token, token-file and backend");
    }
    if (entry.backend() != null) {
      return backend(place + ".backend", entry.backend());
    }
    try {
      if (entry.tokenFile() != null) {
        return new Authorization.Fixed(Files.readString(entry.tokenFile()).strip());
      }
      return entry.token() == null
          ? new Authorization.None()
          : new Authorization.Fixed(entry.token().strip());
    } catch (IOException e) {
      throw new IllegalArgumentException(
          place + ".token-file cannot be read: " + entry.tokenFile(), e);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(
          place + (entry.token() == null ? ".token-file " : ".token ") + e.getMessage(), e);
    }
  }

  private static Authorization backend(String place, BackendEntry entry) {
    if (entry.keyFile() == null) {
      throw new IllegalArgumentException(place + ".key-file must be set");
    }
    try {
      SigningKeys keys = SigningKeys.read(entry.keyFile(), entry.kid(), entry.algorithm());
      return new Authorization.Backend(
          entry.clientId(), entry.tokenEndpoint(), keys, entry.scopes());
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(place + "." + e.getMessage(), e);
    }
  }
}
