package org.intercusp.exchange.authorization;

import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The public parts of all our keys, for the recipients' authorization servers to fetch. */
public final class PublishedKeys {

  private final String json;

  private PublishedKeys(String json) {
    this.json = json;
  }

  /**
   * The keys of several recipients, each once.
   *
   * @throws IllegalArgumentException when two different keys have the same {@code kid}
   */
  public static PublishedKeys of(Collection<SigningKeys> all) {
    Map<String, JWK> byName = new LinkedHashMap<>();
    for (SigningKeys keys : all) {
      for (JWK key : keys.published()) {
        JWK other = byName.putIfAbsent(key.getKeyID(), key);
        if (other != null && !other.equals(key)) {
          throw new IllegalArgumentException(
              "two keys of the key-files have the same kid: " + key.getKeyID());
        }
      }
    }
    return new PublishedKeys(new JWKSet(List.copyOf(byName.values())).toString(true));
  }

  /** A JWK set (RFC 7517, section 5) without private parts. */
  public String json() {
    return json;
  }
}
