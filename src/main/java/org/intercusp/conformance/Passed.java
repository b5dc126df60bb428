package org.intercusp.conformance;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.util.HexFormat;

/**
 * What passed lately, by the day it was judged on and a digest of all its bytes. Judging is most of
 * what a delivery costs, and one version goes to several recipients, and again and again to one
 * that is down. For many threads.
 */
final class Passed {

  /** Versions remembered, of some 100 bytes each; common practice, no source. */
  private static final int MOST = 10_000;

  private final Cache<String, Boolean> passed = Caffeine.newBuilder().maximumSize(MOST).build();

  /** The name of a document on a day. */
  static String name(byte[] document, LocalDate day) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(document);
      return day + " " + HexFormat.of().formatHex(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  boolean holds(String name) {
    return passed.getIfPresent(name) != null;
  }

  void add(String name) {
    passed.put(name, true);
  }
}
