package org.intercusp.registry.privacy;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import javax.crypto.Mac;
import org.intercusp.treatment.Identifier;

/**
 * Keyed hashes in place of identifiers: HMAC-SHA-256 (RFC 2104, FIPS 180-4) cut to 120 bits, which
 * leaves a chance of one in 10^22 that two of ten million persons meet. Each kind of thing is
 * hashed under its own name, so that a patient and a treatment with one number do not meet either.
 * For one thread.
 */
public final class Pseudonyms {

  private static final int BYTES = 15;

  private final List<String> ids;
  private final List<Mac> layers;

  Pseudonyms(List<KeyRing.Key> keys) {
    this.ids = keys.stream().map(KeyRing.Key::id).toList();
    this.layers = keys.stream().map(Pseudonyms::mac).toList();
  }

  private static Mac mac(KeyRing.Key key) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(key.secret());
      return mac;
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java platform has HmacSHA256", e);
    }
  }

  public String person(Identifier patient) {
    return named("person", patient.system(), patient.value());
  }

  public String treatment(Identifier clinic, String treatment) {
    return named("treatment", clinic.system(), clinic.value(), treatment);
  }

  public String submission(Identifier submitter, String submission) {
    return named("submission", submitter.system(), submitter.value(), submission);
  }

  /** Whether two records are the same can be told by it, and nothing else. */
  public String content(byte[] record) {
    return hashed(record);
  }

  /** Lays the keys on that came after the named one. */
  public String carriedOn(String pseudonym, String keyId) {
    int from = ids.indexOf(keyId);
    if (from < 0) {
      throw new IllegalArgumentException("the key " + keyId + " is not in the key file");
    }
    return layered(pseudonym, from + 1);
  }

  private String named(String... parts) {
    // No part has a control character: the reader refuses them.
    return hashed(String.join("\u0000", parts).getBytes(StandardCharsets.UTF_8));
  }

  private String hashed(byte[] bytes) {
    return layered(text(layers.get(0).doFinal(bytes)), 1);
  }

  private String layered(String pseudonym, int from) {
    String hash = pseudonym;
    for (Mac layer : layers.subList(from, layers.size())) {
      hash = text(layer.doFinal(hash.getBytes(StandardCharsets.US_ASCII)));
    }
    return hash;
  }

  private static String text(byte[] hash) {
    return Base64.getUrlEncoder().withoutPadding().encodeToString(Arrays.copyOf(hash, BYTES));
  }
}
