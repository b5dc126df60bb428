package org.intercusp.app.security;

import com.nimbusds.jose.EncryptionMethod;
import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWEAlgorithm;
import com.nimbusds.jose.JWEHeader;
import com.nimbusds.jose.crypto.DirectDecrypter;
import com.nimbusds.jose.crypto.DirectEncrypter;
import com.nimbusds.jwt.EncryptedJWT;
import com.nimbusds.jwt.JWTClaimsSet;
import jakarta.servlet.http.Cookie;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.security.SecureRandom;
import java.text.ParseException;
import java.time.Clock;
import java.time.Duration;
import java.util.Date;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseCookie;
import org.springframework.security.jackson.SecurityJacksonModules;
import org.springframework.security.oauth2.client.web.AuthorizationRequestRepository;
import org.springframework.security.oauth2.core.endpoint.OAuth2AuthorizationRequest;
import org.springframework.web.util.WebUtils;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/**
 * The logins that were begun, each kept by the browser that began it and none by this service: in a
 * cookie that only this service reads and writes (a JWE, RFC 7516, with {@code dir} and AES-GCM of
 * 256 bits, under a key drawn at the start). So anybody may ask for a login as often as they like
 * and no memory is held for it; a server session begins with the login's success.
 *
 * <p>The browser that comes back must bring the cookie of the login it began (state, RFC 6749
 * section 10.12; nonce and PKCE's verifier are in it too), within the time a login may take. A
 * cookie that is kept and sent again is of no use: the issuer gives out a code once.
 */
final class PendingLogins implements AuthorizationRequestRepository<OAuth2AuthorizationRequest> {

  static final String COOKIE = "__Host-intercusp-login";

  /** How long a login may take; common practice, no source. */
  static final Duration LONGEST = Duration.ofMinutes(5);

  private static final int KEY_BYTES = 32;
  private static final String REQUEST = "request";

  private final Clock clock;
  private final byte[] key = new byte[KEY_BYTES];
  private final JsonMapper json =
      JsonMapper.builder()
          .addModules(SecurityJacksonModules.getModules(PendingLogins.class.getClassLoader()))
          .build();

  PendingLogins(Clock clock) {
    this.clock = clock;
    new SecureRandom().nextBytes(key);
  }

  /** What this browser began and now brings back; null where it began nothing, or too long ago. */
  @Override
  public @Nullable OAuth2AuthorizationRequest loadAuthorizationRequest(HttpServletRequest request) {
    Cookie cookie = WebUtils.getCookie(request, COOKIE);
    String state = request.getParameter("state");
    if (cookie == null || state == null) {
      return null;
    }
    OAuth2AuthorizationRequest begun = opened(cookie.getValue());
    return begun != null && state.equals(begun.getState()) ? begun : null;
  }

  @Override
  public void saveAuthorizationRequest(
      @Nullable OAuth2AuthorizationRequest begun,
      HttpServletRequest request,
      HttpServletResponse response) {
    response.addHeader(
        "Set-Cookie", begun == null ? cookie("", Duration.ZERO) : cookie(sealed(begun), LONGEST));
  }

  @Override
  public @Nullable OAuth2AuthorizationRequest removeAuthorizationRequest(
      HttpServletRequest request, HttpServletResponse response) {
    OAuth2AuthorizationRequest begun = loadAuthorizationRequest(request);
    if (begun != null) {
      saveAuthorizationRequest(null, request, response);
    }
    return begun;
  }

  // The issuer sends the browser back here, which "strict" would not survive.
  private static String cookie(String value, Duration age) {
    return ResponseCookie.from(COOKIE, value)
        .httpOnly(true)
        .secure(true)
        .sameSite("Lax")
        .path("/")
        .maxAge(age)
        .build()
        .toString();
  }

  private String sealed(OAuth2AuthorizationRequest begun) {
    JWTClaimsSet claims =
        new JWTClaimsSet.Builder()
            .claim(REQUEST, json.writeValueAsString(begun))
            .expirationTime(Date.from(clock.instant().plus(LONGEST)))
            .build();
    EncryptedJWT jwt =
        new EncryptedJWT(new JWEHeader(JWEAlgorithm.DIR, EncryptionMethod.A256GCM), claims);
    try {
      jwt.encrypt(new DirectEncrypter(key));
    } catch (JOSEException e) {
      throw new IllegalStateException("AES-GCM is part of every Java runtime", e);
    }
    return jwt.serialize();
  }

  private @Nullable OAuth2AuthorizationRequest opened(String value) {
    try {
      EncryptedJWT jwt = EncryptedJWT.parse(value);
      jwt.decrypt(new DirectDecrypter(key));
      JWTClaimsSet claims = jwt.getJWTClaimsSet();
      return claims.getExpirationTime().toInstant().isAfter(clock.instant())
          ? json.readValue(claims.getStringClaim(REQUEST), OAuth2AuthorizationRequest.class)
          : null;
    } catch (ParseException | JOSEException | JacksonException e) {
      // Not ours, of another start, or tampered with: as if nothing had begun.
      return null;
    }
  }
}
