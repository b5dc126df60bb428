package org.intercusp.exchange.authorization;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JOSEObjectType;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.JWSSigner;
import com.nimbusds.jose.crypto.ECDSASigner;
import com.nimbusds.jose.crypto.RSASSASigner;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.RSAKey;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.text.ParseException;
import java.time.Duration;
import java.time.Instant;
import java.util.Date;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * The keys of one file, a private JWK set (RFC 7517): one signs, the public parts of all are
 * published, so that the old and the new one are both known while a key is changed. Algorithms are
 * those of SMART App Launch 2.2: RS384 and ES384. Refused: a file that others than its owner may
 * read, keys without {@code kid}, RSA below 2048 bits, other curves than P-384.
 */
public final class SigningKeys {

  /**
   * How long an assertion holds. Five minutes are the most (SMART App Launch 2.2, client
   * confidential asymmetric); one is left for clocks that are apart, common practice, no source.
   */
  static final Duration HOLDS = Duration.ofMinutes(4);

  // RFC 7518, section 3.3.
  private static final int RSA_BITS = 2048;

  private static final Set<PosixFilePermission> OF_THE_OWNER =
      EnumSet.of(
          PosixFilePermission.OWNER_READ,
          PosixFilePermission.OWNER_WRITE,
          PosixFilePermission.OWNER_EXECUTE);

  private final JWSHeader header;
  private final JWSSigner signer;
  private final List<JWK> published;

  private SigningKeys(JWSHeader header, JWSSigner signer, List<JWK> published) {
    this.header = header;
    this.signer = signer;
    this.published = List.copyOf(published);
  }

  /**
   * Reads a key file.
   *
   * @param kid which key signs; may be absent where there is only one
   * @param algorithm RS384 or ES384; may be absent, since the key has only one of them
   * @throws IllegalArgumentException with a sentence that names the property and no key
   */
  public static SigningKeys read(Path file, @Nullable String kid, @Nullable String algorithm) {
    List<JWK> keys = all(file);
    List<JWK> chosen =
        kid == null ? keys : keys.stream().filter(key -> kid.equals(key.getKeyID())).toList();
    if (chosen.size() != 1) {
      throw new IllegalArgumentException(
          kid == null
              ? "kid must say which of the " + keys.size() + " keys of the key-file signs"
              : "kid names no key of the key-file: " + kid);
    }
    JWK signing = chosen.get(0);
    JWSAlgorithm fitting = algorithm(signing);
    if (algorithm != null && !algorithm.equals(fitting.getName())) {
      throw new IllegalArgumentException(
          "algorithm is " + fitting.getName() + " for key " + signing.getKeyID());
    }
    JWSHeader header =
        new JWSHeader.Builder(fitting).type(JOSEObjectType.JWT).keyID(signing.getKeyID()).build();
    return new SigningKeys(header, signer(signing), keys.stream().map(SigningKeys::open).toList());
  }

  private static List<JWK> all(Path file) {
    try {
      if (file.getFileSystem().supportedFileAttributeViews().contains("posix")
          && !OF_THE_OWNER.containsAll(Files.getPosixFilePermissions(file))) {
        throw new IllegalArgumentException(
            "key-file may be read by others than its owner (chmod 600): " + file);
      }
      List<JWK> keys = JWKSet.parse(Files.readString(file)).getKeys();
      if (keys.isEmpty()) {
        throw new IllegalArgumentException("key-file holds no key: " + file);
      }
      keys.forEach(SigningKeys::algorithm);
      return keys;
    } catch (IOException e) {
      throw new IllegalArgumentException("key-file cannot be read: " + file, e);
    } catch (ParseException e) {
      // Without the cause, which quotes the file.
      throw new IllegalArgumentException("key-file is no JWK set (RFC 7517): " + file);
    }
  }

  private static JWSAlgorithm algorithm(JWK key) {
    if (key.getKeyID() == null || key.getKeyID().isBlank()) {
      throw new IllegalArgumentException("key-file has a key without kid");
    }
    if (!key.isPrivate()) {
      throw new IllegalArgumentException("key-file has a key that is not private");
    }
    if (key instanceof RSAKey && key.size() >= RSA_BITS) {
      return JWSAlgorithm.RS384;
    }
    if (key instanceof ECKey ec && ec.getCurve().equals(Curve.P_384)) {
      return JWSAlgorithm.ES384;
    }
    throw new IllegalArgumentException(
        "key-file has a key that is neither RSA of 2048 bits or more nor of the curve P-384: "
            + key.getKeyID());
  }

  private static JWSSigner signer(JWK key) {
    try {
      return key instanceof RSAKey rsa ? new RSASSASigner(rsa) : new ECDSASigner(key.toECKey());
    } catch (JOSEException e) {
      throw new IllegalArgumentException("key-file has a key that does not sign", e);
    }
  }

  /** The public part and nothing else that the file says of a key. */
  private static JWK open(JWK key) {
    JWSAlgorithm algorithm = algorithm(key);
    return key instanceof RSAKey rsa
        ? new RSAKey.Builder(rsa.toPublicJWK()).algorithm(algorithm).build()
        : new ECKey.Builder(((ECKey) key).toPublicJWK()).algorithm(algorithm).build();
  }

  /**
   * A new assertion that we are this client (RFC 7523, section 3), for one use.
   *
   * @param audience the token endpoint
   */
  public String assertion(String clientId, URI audience, Instant now) {
    SignedJWT token =
        new SignedJWT(
            header,
            new JWTClaimsSet.Builder()
                .issuer(clientId)
                .subject(clientId)
                .audience(audience.toString())
                .issueTime(Date.from(now))
                .expirationTime(Date.from(now.plus(HOLDS)))
                .jwtID(UUID.randomUUID().toString())
                .build());
    try {
      token.sign(signer);
    } catch (JOSEException e) {
      throw new IllegalStateException("The key " + header.getKeyID() + " does not sign", e);
    }
    return token.serialize();
  }

  List<JWK> published() {
    return published;
  }

  @Override
  public String toString() {
    return "SigningKeys[" + header.getKeyID() + "]";
  }
}
