package org.intercusp.archive;

import java.util.ArrayList;
import java.util.List;
import javax.sql.DataSource;
import org.intercusp.archive.TermRows.Found;
import org.intercusp.archive.TermRows.Outdated;
import org.intercusp.finding.FaultPlace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Brings up to date what resources are searched by, after a program that knew less of it. */
final class TermRenewal {

  private static final Logger LOG = LoggerFactory.getLogger(TermRenewal.class);

  /** Versions renewed in one statement; common practice, no source. */
  private static final int AT_ONCE = 200;

  private final TermRows rows;
  private final Expression expression;

  TermRenewal(DataSource database, Expression expression) {
    this.rows = new TermRows(database);
    this.expression = expression;
  }

  /**
   * Renews the terms of all versions in force where they stand in an older form. Versions that were
   * superseded before are found by nothing but pages of searches that began before the start.
   *
   * @return how many versions have a content that is not understood
   */
  int renewAll() {
    int failed = 0;
    int form = expression.termsForm();
    List<Outdated> some = rows.outdated(form, null, AT_ONCE);
    while (!some.isEmpty()) {
      List<Found> found = new ArrayList<>();
      for (Outdated one : some) {
        try {
          found.add(new Found(one.ref(), expression.terms(one.content())));
        } catch (RuntimeException e) {
          if (failed == 0) {
            LOG.warn("a resource could not be made findable, the first: {}", FaultPlace.of(e));
          }
          failed++;
        }
      }
      rows.renew(found, form);
      some = rows.outdated(form, some.get(some.size() - 1).ref(), AT_ONCE);
    }
    return failed;
  }
}
