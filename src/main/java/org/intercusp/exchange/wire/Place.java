package org.intercusp.exchange.wire;

import java.net.URI;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Resource;

/**
 * Where a resource lies on a server, and URLs that a server sends: which of them are on itself, and
 * what resource they name.
 */
public final class Place {

  private static final Pattern RESOURCE =
      Pattern.compile("([A-Z][A-Za-z]{1,63})/([A-Za-z0-9\\-.]{1,64})(/_history/[^/?#]+)?/?");

  private Place() {}

  /** The URL against the base; refused when it is on another host, port or scheme. */
  static URI onSameHost(URI base, String url) {
    URI whole = URI.create(base + "/").resolve(url.strip());
    if (!isSameOrigin(base, whole)) {
      throw new IllegalArgumentException("another host");
    }
    return whole;
  }

  /** Same scheme, host and port (RFC 6454, section 5). */
  static boolean isSameOrigin(URI one, URI other) {
    return other.getRawUserInfo() == null && origin(one).equals(origin(other));
  }

  private static String origin(URI url) {
    String scheme = String.valueOf(url.getScheme()).toLowerCase(Locale.ROOT);
    int port = url.getPort() >= 0 ? url.getPort() : scheme.equals("https") ? 443 : 80;
    return scheme + "://" + String.valueOf(url.getHost()).toLowerCase(Locale.ROOT) + ":" + port;
  }

  /** {@code Type/id} of a resource as a server holds it. */
  public static String of(Resource stored) {
    return stored.fhirType() + "/" + stored.getIdElement().getIdPart();
  }

  /** {@code Type/id} of a relative or absolute reference or Location on this server. */
  public static Optional<String> resource(String base, String url) {
    String rest = url;
    if (url.contains("://")) {
      if (!url.startsWith(base + "/")) {
        return Optional.empty();
      }
      rest = url.substring(base.length() + 1);
    }
    Matcher parts = RESOURCE.matcher(rest.startsWith("/") ? rest.substring(1) : rest);
    return parts.matches() ? Optional.of(parts.group(1) + "/" + parts.group(2)) : Optional.empty();
  }
}
