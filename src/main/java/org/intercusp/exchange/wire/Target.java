package org.intercusp.exchange.wire;

import java.net.URI;
import java.util.Locale;
import java.util.Set;
import javax.net.ssl.SSLContext;
import org.intercusp.exchange.authorization.Authorization;
import org.jspecify.annotations.Nullable;

/**
 * A FHIR server to talk to. Refused: anything but http and https, a URL with user, query or
 * fragment, and a secret or client certificate over plain http to another machine.
 *
 * @param baseUrl the FHIR base URL, without a closing slash
 * @param authorization what it wants to see
 * @param tls our certificate and whom we trust; the platform's defaults where absent
 * @param vicinity whether its name may stand for this machine
 */
public record Target(
    URI baseUrl, Authorization authorization, @Nullable SSLContext tls, Vicinity vicinity) {

  /** RFC 9293, 3.1; 0 is none that is listened on. */
  private static final int HIGHEST_PORT = 65_535;

  private static final Set<String> THIS_MACHINE = Set.of("localhost", "127.0.0.1", "[::1]");

  public Target {
    baseUrl = checked(baseUrl, "A FHIR base URL");
    if (!(authorization instanceof Authorization.None)) {
      secure(baseUrl);
    }
    if (authorization instanceof Authorization.Backend backend && backend.tokenEndpoint() != null) {
      secure(checked(backend.tokenEndpoint(), "token-endpoint"));
    }
    if (tls != null && !isHttps(baseUrl)) {
      throw new IllegalArgumentException("A client certificate is shown over https only");
    }
  }

  /**
   * A server with the platform's own TLS.
   *
   * @param token a bearer token sent with every request
   */
  public Target(URI baseUrl, @Nullable String token) {
    this(
        baseUrl,
        token == null ? new Authorization.None() : new Authorization.Fixed(token),
        null,
        Vicinity.ELSEWHERE_ONLY);
  }

  /** A server that asks for no authorization. */
  public static Target of(URI baseUrl) {
    return new Target(baseUrl, null);
  }

  /** Whether a URL is on the server itself: same scheme, host and port. */
  boolean isHome(URI url) {
    return Place.isSameOrigin(baseUrl, url);
  }

  /** Whether a URL is one that was configured: on the server, or its token endpoint. */
  boolean covers(URI url) {
    return isHome(url)
        || (authorization instanceof Authorization.Backend backend
            && url.equals(backend.tokenEndpoint()));
  }

  /** Without the token. */
  @Override
  public String toString() {
    return baseUrl.toString();
  }

  private static void secure(URI url) {
    if (!isHttps(url) && !THIS_MACHINE.contains(url.getHost().toLowerCase(Locale.ROOT))) {
      throw new IllegalArgumentException(
          "A token is not sent over plain http to " + url.getHost() + ": use https");
    }
  }

  private static boolean isHttps(URI url) {
    return "https".equalsIgnoreCase(url.getScheme());
  }

  private static URI checked(URI url, String what) {
    String scheme = url.getScheme() == null ? "" : url.getScheme().toLowerCase(Locale.ROOT);
    if (!(scheme.equals("http") || scheme.equals("https")) || url.getHost() == null) {
      throw new IllegalArgumentException(what + " begins with http:// or https:// and a host");
    }
    if (url.getPort() == 0 || url.getPort() > HIGHEST_PORT) {
      throw new IllegalArgumentException(
          what + " has a port of 1 to " + HIGHEST_PORT + ", not " + url.getPort());
    }
    if (url.getRawUserInfo() != null || url.getRawQuery() != null || url.getRawFragment() != null) {
      throw new IllegalArgumentException(what + " has no user, query or fragment");
    }
    return URI.create(url.toString().replaceFirst("/+$", ""));
  }
}
