package org.intercusp.exchange;

import java.net.URI;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A FHIR server to talk to. Refused: anything but http and https, a URL with user, query or
 * fragment, and a token that would go over plain http to another machine.
 *
 * @param baseUrl the FHIR base URL, without a closing slash
 * @param token a bearer token sent with every request
 */
public record Target(URI baseUrl, @Nullable String token) {

  private static final Set<String> THIS_MACHINE = Set.of("localhost", "127.0.0.1", "[::1]");

  public Target {
    baseUrl = checked(baseUrl);
    if (token != null && baseUrl.getScheme().equals("http") && !isThisMachine(baseUrl)) {
      throw new IllegalArgumentException(
          "A token is not sent over plain http to " + baseUrl.getHost() + ": use https");
    }
  }

  /** A server that asks for no authorization. */
  public static Target of(URI baseUrl) {
    return new Target(baseUrl, null);
  }

  /** Without the token. */
  @Override
  public String toString() {
    return baseUrl.toString();
  }

  private static boolean isThisMachine(URI url) {
    return THIS_MACHINE.contains(url.getHost().toLowerCase(Locale.ROOT));
  }

  private static URI checked(URI url) {
    String scheme = url.getScheme() == null ? "" : url.getScheme().toLowerCase(Locale.ROOT);
    if (!(scheme.equals("http") || scheme.equals("https")) || url.getHost() == null) {
      throw new IllegalArgumentException("A FHIR base URL begins with http:// or https://");
    }
    if (url.getRawUserInfo() != null || url.getRawQuery() != null || url.getRawFragment() != null) {
      throw new IllegalArgumentException("A FHIR base URL has no user, query or fragment");
    }
    return URI.create(url.toString().replaceFirst("/+$", ""));
  }
}
