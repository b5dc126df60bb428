package org.intercusp.web.api;

import java.time.Duration;
import org.intercusp.exchange.authorization.PublishedKeys;
import org.springframework.http.CacheControl;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Our public keys (RFC 7517), by which recipients' authorization servers know us. */
@RestController
class KeyDoor {

  // How long a server may go on with keys it has; common practice, no source.
  private static final Duration FRESH = Duration.ofMinutes(5);

  private final PublishedKeys keys;

  KeyDoor(PublishedKeys keys) {
    this.keys = keys;
  }

  @GetMapping(path = "/.well-known/jwks.json", produces = "application/json")
  ResponseEntity<String> keys() {
    return ResponseEntity.ok()
        .cacheControl(CacheControl.maxAge(FRESH).cachePublic())
        .body(keys.json());
  }
}
