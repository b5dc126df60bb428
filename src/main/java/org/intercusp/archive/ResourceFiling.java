package org.intercusp.archive;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.sql.DataSource;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Expression.Expressed;
import org.intercusp.archive.ResourceRows.Newest;
import org.intercusp.archive.ResourceRows.Ref;
import org.intercusp.archive.ResourceRows.Written;
import org.intercusp.finding.FaultPlace;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Files what stored treatments say as resources. A resource gets a new version only when its
 * content changes; one whose element went away gets a last version that says so. Takes part in the
 * caller's transaction.
 */
final class ResourceFiling {

  private static final Logger LOG = LoggerFactory.getLogger(ResourceFiling.class);

  /** Treatments filed between two looks for more; common practice, no source. */
  private static final int AT_ONCE = 100;

  private static final Caller WORKER = Caller.worker("resource-filing");

  private final ResourceRows rows;
  private final CurrentCaller callers;
  private final VersionRows versions;
  private final TermRenewal renewal;
  private final Expression expression;
  private final TransactionTemplate transaction;

  ResourceFiling(DataSource database, CurrentCaller callers, Expression expression) {
    this.rows = new ResourceRows(database);
    this.versions = new VersionRows(database, callers);
    this.renewal = new TermRenewal(database, expression);
    this.callers = callers;
    this.expression = expression;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
  }

  /** Files every version of a treatment that has not been filed yet, the oldest first. */
  void file(TreatmentKey key) {
    transaction.executeWithoutResult(
        status -> {
          for (int version : rows.unfiled(key)) {
            StoredTreatment stored = versions.version(key, version).orElseThrow();
            Instant at = rows.lock(key.clinic(), stored.receivedAt());
            // Another instance may have filed it while this one waited.
            if (rows.unfiled(key).contains(version)) {
              file(stored, at);
            }
          }
        });
  }

  /**
   * Files what was stored before there was an index, and renews what resources are searched by
   * where it stands in an older form. Each treatment is a transaction of its own, and one that
   * fails does not keep the others.
   *
   * @return how many treatments and resources failed
   */
  int fileAll() {
    return callers.as(WORKER, this::all) + renewal.renewAll();
  }

  private int all() {
    int failed = 0;
    List<TreatmentKey> keys = rows.unfiledTreatments(null, AT_ONCE);
    while (!keys.isEmpty()) {
      for (TreatmentKey key : keys) {
        try {
          file(key);
        } catch (RuntimeException e) {
          if (failed == 0) {
            LOG.warn("a treatment could not be filed, the first: {}", FaultPlace.of(e));
          }
          failed++;
        }
      }
      keys = rows.unfiledTreatments(keys.get(keys.size() - 1), AT_ONCE);
    }
    return failed;
  }

  private void file(StoredTreatment stored, Instant at) {
    TreatmentKey key = stored.key();
    long sequence = rows.filing(key, stored.version());
    Map<Ref, String> before = rows.sources(key);
    Map<Ref, Expressed> said = new HashMap<>();
    expression.of(stored).forEach(one -> said.put(Ref.of(one), one));
    Set<Ref> all = new HashSet<>(before.keySet());
    all.addAll(said.keySet());
    Map<Ref, Newest> known = rows.newest(key.clinic(), all);
    List<Expressed> fresh = new ArrayList<>();
    List<Written> written = new ArrayList<>();
    Map<Ref, String> changed = new HashMap<>();
    said.forEach(
        (ref, one) -> {
          String digest = DigestUtils.sha256Hex(one.content());
          if (digest.equals(before.get(ref))) {
            return;
          }
          changed.put(ref, digest);
          Newest newest = known.get(ref);
          if (newest == null) {
            fresh.add(one);
          }
          if (newest == null || !newest.digest().equals(digest)) {
            int version = newest == null ? 1 : newest.version() + 1;
            written.add(written(ref, version, one.patient(), false, one.content()));
          }
        });
    Set<Ref> gone = new HashSet<>(before.keySet());
    gone.removeAll(said.keySet());
    written.addAll(withdrawn(gone, known));
    rows.addResources(key.clinic(), fresh);
    rows.addVersions(key, stored.version(), sequence, at, expression.termsForm(), written);
    Set<Ref> outdated = new HashSet<>(changed.keySet());
    outdated.retainAll(before.keySet());
    outdated.addAll(gone);
    rows.removeSources(key, outdated);
    rows.addSources(key, changed);
  }

  // What others may say too is not this treatment's to take back.
  private List<Written> withdrawn(Set<Ref> gone, Map<Ref, Newest> known) {
    return gone.stream()
        .map(known::get)
        .filter(newest -> newest != null && !newest.shared())
        .map(
            newest ->
                written(
                    newest.ref(),
                    newest.version() + 1,
                    newest.patient(),
                    true,
                    expression.withdrawn(newest.content())))
        .toList();
  }

  private Written written(
      Ref ref, int version, @Nullable String patient, boolean withdrawn, String content) {
    return new Written(ref, version, patient, withdrawn, content, expression.terms(content));
  }
}
