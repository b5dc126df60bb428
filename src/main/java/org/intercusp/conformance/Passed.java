package org.intercusp.conformance;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.time.LocalDate;
import org.apache.commons.codec.digest.DigestUtils;

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
    return day + " " + DigestUtils.sha256Hex(document);
  }

  boolean holds(String name) {
    return passed.getIfPresent(name) != null;
  }

  void add(String name) {
    passed.put(name, true);
  }
}
