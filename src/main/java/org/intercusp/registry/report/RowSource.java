package org.intercusp.registry.report;

import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * An engine that runs the gathering's SQL over the outcome rows. Only this differs between one
 * machine and a cluster: the SQL text and every statistic on what it brings are shared. The view
 * {@code cases} is there from the start and holds a row a current submission.
 */
public interface RowSource {

  /** Names a query so that later ones can read from it; run anew each time. */
  void view(String name, String sql);

  /** Names a query and keeps its (small) rows. */
  void keep(String name, String sql);

  /** Hands each row of a (small) result on. */
  void each(String sql, Consumer<Row> use);

  /** One row of a result, good until the next. */
  interface Row {

    boolean has(String column);

    @Nullable String text(String column);

    /** A count or sum of whole numbers; 0 where the engine has null. */
    long whole(String column);

    /** A sum of numbers; 0 where the engine has null. */
    double number(String column);
  }
}
