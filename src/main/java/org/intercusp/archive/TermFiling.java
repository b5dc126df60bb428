package org.intercusp.archive;

import java.util.ArrayList;
import java.util.List;
import javax.sql.DataSource;
import org.intercusp.archive.ResourceRows.Written;
import org.intercusp.archive.TermRows.Found;
import org.intercusp.archive.TermRows.Outdated;
import org.intercusp.archive.TermRows.VersionRef;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Keeps what each version of a resource is searched by beside it. */
final class TermFiling {

  /** Versions renewed in one transaction; common practice, no source. */
  private static final int AT_ONCE = 200;

  private final TermRows rows;
  private final Expression expression;
  private final TransactionTemplate transaction;

  TermFiling(DataSource database, Expression expression) {
    this.rows = new TermRows(database);
    this.expression = expression;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
  }

  /** Adds the terms of new versions, in the caller's transaction. */
  void add(List<Written> written) {
    List<Found> found =
        written.stream()
            .map(
                one ->
                    new Found(
                        new VersionRef(one.ref().type(), one.ref().id(), one.version()),
                        expression.terms(one.content())))
            .toList();
    rows.add(found, expression.termsForm());
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
          failed++;
        }
      }
      transaction.executeWithoutResult(
          status ->
              rows.add(found.stream().filter(one -> rows.renew(one.ref(), form)).toList(), form));
      some = rows.outdated(form, some.get(some.size() - 1).ref(), AT_ONCE);
    }
    return failed;
  }
}
