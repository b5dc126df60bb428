package org.intercusp.app.security;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.springframework.security.oauth2.core.DelegatingOAuth2TokenValidator;
import org.springframework.security.oauth2.core.OAuth2TokenValidator;
import org.springframework.security.oauth2.jose.jws.SignatureAlgorithm;
import org.springframework.security.oauth2.jwt.Jwt;
import org.springframework.security.oauth2.jwt.JwtClaimNames;
import org.springframework.security.oauth2.jwt.JwtClaimValidator;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.jwt.JwtIssuerValidator;
import org.springframework.security.oauth2.jwt.JwtTimestampValidator;
import org.springframework.security.oauth2.jwt.NimbusJwtDecoder;
import org.springframework.security.oauth2.jwt.SupplierJwtDecoder;

/**
 * Which tokens are taken: signed by a key of the issuer with an algorithm of the list, issued by
 * it, for this service, for somebody, and in time (RFC 8725, sections 3.1, 3.8 and 3.9).
 */
final class Tokens {

  /** Public keys only: what a shared secret signs, whoever knows the secret can sign. */
  private static final List<SignatureAlgorithm> TAKEN =
      List.of(
          SignatureAlgorithm.RS256,
          SignatureAlgorithm.RS384,
          SignatureAlgorithm.PS256,
          SignatureAlgorithm.PS384,
          SignatureAlgorithm.ES256,
          SignatureAlgorithm.ES384);

  private Tokens() {}

  /** The issuer's metadata and keys are fetched at the first token. */
  static JwtDecoder decoder(LoginSettings settings, Clock clock) {
    String issuer = Objects.requireNonNull(settings.issuer()).toString();
    return new SupplierJwtDecoder(
        () -> {
          NimbusJwtDecoder decoder =
              NimbusJwtDecoder.withIssuerLocation(issuer)
                  .jwsAlgorithms(taken -> taken.addAll(TAKEN))
                  .cache(new IssuerKeys(clock))
                  .build();
          decoder.setJwtValidator(validator(settings, issuer));
          return decoder;
        });
  }

  private static OAuth2TokenValidator<Jwt> validator(LoginSettings settings, String issuer) {
    return new DelegatingOAuth2TokenValidator<>(
        List.of(
            new JwtTimestampValidator(settings.skew()),
            new JwtIssuerValidator(issuer),
            new JwtClaimValidator<List<String>>(
                JwtClaimNames.AUD,
                audiences -> audiences != null && audiences.contains(settings.audience())),
            new JwtClaimValidator<Instant>(JwtClaimNames.EXP, Objects::nonNull),
            new JwtClaimValidator<String>(
                JwtClaimNames.SUB, subject -> subject != null && !subject.isBlank())));
  }
}
