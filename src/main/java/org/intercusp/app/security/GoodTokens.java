package org.intercusp.app.security;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import jakarta.servlet.http.HttpServletRequest;
import java.time.Duration;
import java.util.Optional;
import org.apache.commons.codec.digest.DigestUtils;

/**
 * Whose a token was when it was last checked. That says only that it is worth checking again: no
 * request is let in by it. Hashes are kept, never tokens.
 */
final class GoodTokens {

  /** Tokens remembered at a time, and for how long unused; common practice, no source. */
  private static final int MOST = 50_000;

  private static final Duration UNUSED = Duration.ofMinutes(15);

  private final Cache<String, String> subjects =
      Caffeine.newBuilder().maximumSize(MOST).expireAfterAccess(UNUSED).build();

  /** The subject of the request's token, where it was good when it last came. */
  Optional<String> subject(HttpServletRequest request) {
    return hash(request).map(subjects::getIfPresent);
  }

  void proved(HttpServletRequest request, String subject) {
    hash(request).ifPresent(hash -> subjects.put(hash, subject));
  }

  void failed(HttpServletRequest request) {
    hash(request).ifPresent(subjects::invalidate);
  }

  private static Optional<String> hash(HttpServletRequest request) {
    return Optional.ofNullable(request.getHeader("Authorization")).map(GoodTokens::hash);
  }

  private static String hash(String token) {
    return DigestUtils.sha256Hex(token);
  }
}
