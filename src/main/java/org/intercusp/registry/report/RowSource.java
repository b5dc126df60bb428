package org.intercusp.registry.report;

import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * An engine that runs the gathering's SQL over the outcome rows. Only this differs between one
 * machine and a cluster: the SQL text and every statistic on what it brings are shared. The view
 * {@code cases} is there from the start and holds a row a current submission; so is the function
 * {@code brief}, which gives 64 bits for a text.
 */
public interface RowSource {

  /** Names a query so that later ones can read from it; run anew each time. */
  void view(String name, String sql);

  /** Names a query and keeps its rows. */
  void keep(String name, String sql);

  /** Lets go of the rows that were kept under a name. */
  void forget(String name);

  /** Hands each row of a result on. */
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
