package org.intercusp.archive;

import java.io.IOException;
import java.sql.SQLException;
import java.sql.SQLNonTransientConnectionException;
import java.sql.SQLRecoverableException;
import java.sql.SQLTransientConnectionException;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import org.h2.api.ErrorCode;

/**
 * Trouble of the machines below us and no fault of ours: it ends when somebody sees to them. The
 * words quote nothing of the fault, whose message may hold what was to be stored.
 */
public enum DatabaseTrouble {
  UNREACHED("the database cannot be reached"),
  FULL("the disk of the database is full"),
  CLOSED("the embedded database is closed, most often by a full disk");

  /** Too little space on Linux and macOS, and on Windows. */
  private static final Set<String> NO_ROOM =
      Set.of("No space left on device", "There is not enough space on the disk");

  private static final Set<Integer> H2_CLOSED =
      Set.of(ErrorCode.DATABASE_IS_CLOSED, ErrorCode.DATABASE_CALLED_AT_SHUTDOWN);

  /** PostgreSQL, appendix A: disk_full, and connection exceptions or an operator's intervention. */
  private static final String PG_FULL = "53100";

  private static final String PG_UNREACHED = "08...|57P0[1-5]|53300";

  private final String words;

  DatabaseTrouble(String words) {
    this.words = words;
  }

  /** For operators. */
  public String words() {
    return words;
  }

  /**
   * What is among the causes of a fault, the gravest first: a full disk is why a database closes.
   */
  public static Optional<DatabaseTrouble> in(Throwable fault) {
    Set<Throwable> chain = new LinkedHashSet<>();
    for (Throwable one = fault; one != null && chain.add(one); ) {
      one = one.getCause();
    }
    if (chain.stream().anyMatch(DatabaseTrouble::isFull)) {
      return Optional.of(FULL);
    }
    if (chain.stream().anyMatch(DatabaseTrouble::isClosed)) {
      return Optional.of(CLOSED);
    }
    return chain.stream().anyMatch(DatabaseTrouble::isUnreached)
        ? Optional.of(UNREACHED)
        : Optional.empty();
  }

  private static boolean isFull(Throwable one) {
    String said = String.valueOf(one.getMessage());
    return (one instanceof IOException && NO_ROOM.stream().anyMatch(said::contains))
        || (one instanceof SQLException sql && PG_FULL.equals(sql.getSQLState()));
  }

  private static boolean isClosed(Throwable one) {
    return one instanceof SQLException sql && H2_CLOSED.contains(sql.getErrorCode());
  }

  private static boolean isUnreached(Throwable one) {
    return one instanceof SQLTransientConnectionException
        || one instanceof SQLNonTransientConnectionException
        || one instanceof SQLRecoverableException
        || (one instanceof SQLException sql
            && (String.valueOf(sql.getSQLState()).matches(PG_UNREACHED)
                // What the pool says of a connection that broke before; it gives no state.
                || "Connection is closed".equals(sql.getMessage())));
  }
}
