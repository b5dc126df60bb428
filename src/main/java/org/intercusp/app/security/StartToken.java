package org.intercusp.app.security;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import org.springframework.stereotype.Component;

/** A token drawn anew at each start: 32 random bytes, shown once in the link that is printed. */
@Component
public class StartToken {

  private final String token;

  StartToken() {
    byte[] drawn = new byte[32];
    new SecureRandom().nextBytes(drawn);
    token = Base64.getUrlEncoder().withoutPadding().encodeToString(drawn);
  }

  /** The query to append to the address of the service. */
  public String query() {
    return "?token=" + token;
  }

  String value() {
    return token;
  }

  /** Compares in constant time. */
  boolean is(String presented) {
    return MessageDigest.isEqual(
        token.getBytes(StandardCharsets.UTF_8), presented.getBytes(StandardCharsets.UTF_8));
  }
}
