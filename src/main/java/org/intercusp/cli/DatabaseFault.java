package org.intercusp.cli;

import java.io.EOFException;
import java.nio.file.AccessDeniedException;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.h2.api.ErrorCode;
import org.intercusp.archive.DatabaseTrouble;

/** What an operator can do about a database that cannot be used. */
final class DatabaseFault {

  private static final String FULL =
      "the database in the data directory could not be written; see whether the disk is full,"
          + " make room and start again";

  private static final String DAMAGED =
      "the database in the data directory is damaged; bring a backup into a directory"
          + " without one (restore --from FILE), and keep the damaged file";

  private static final String NEWER =
      "the database was last opened by a newer version of this program; start that one, or bring a"
          + " backup of before into another data directory (settings --upgrading)";

  /** Invalid authorization, invalid catalog name (SQL standard; PostgreSQL, appendix A). */
  private static final String UNKNOWN = "28...|3D000";

  private DatabaseFault() {}

  /** What the database says of the user, the password or its name that were set. */
  static Optional<String> ofSettings(List<Throwable> chain) {
    return chain.stream()
        .filter(SQLException.class::isInstance)
        .filter(one -> String.valueOf(((SQLException) one).getSQLState()).matches(UNKNOWN))
        .map(Throwable::getMessage)
        .findFirst();
  }

  /** In words, where one is among these causes. */
  static Optional<String> in(List<Throwable> chain) {
    if (DatabaseTrouble.in(chain.get(0)).filter(it -> it == DatabaseTrouble.FULL).isPresent()) {
      return Optional.of(FULL);
    }
    if (chain.stream().anyMatch(DatabaseFault::isOfNewer)) {
      return Optional.of(NEWER);
    }
    List<SQLException> faults =
        chain.stream()
            .filter(SQLException.class::isInstance)
            .map(SQLException.class::cast)
            .toList();
    return faults.stream()
        .flatMap(fault -> words(fault).stream())
        .findFirst()
        .or(() -> unreached(chain, faults))
        .or(() -> unopened(chain));
  }

  /** Migrations that were carried out and are none of ours; we never take one away. */
  private static boolean isOfNewer(Throwable fault) {
    return fault.getClass().getSimpleName().equals("FlywayValidateException")
        && String.valueOf(fault.getMessage()).contains("not resolved locally");
  }

  /** The file itself: somebody else's, or too short to be one. */
  private static Optional<String> unopened(List<Throwable> chain) {
    Optional<String> denied =
        chain.stream()
            .filter(AccessDeniedException.class::isInstance)
            .map(Throwable::getMessage)
            .findFirst();
    return denied.isPresent()
        ? denied.map(
            file -> file + " may not be read or written by the user this runs as; see whose it is")
        : chain.stream().filter(EOFException.class::isInstance).map(ended -> DAMAGED).findFirst();
  }

  /** The driver's own words, which name host and port, and not those of the pool around it. */
  private static Optional<String> unreached(List<Throwable> chain, List<SQLException> faults) {
    return DatabaseTrouble.in(chain.get(0))
        .filter(trouble -> trouble == DatabaseTrouble.UNREACHED)
        .map(trouble -> trouble.words() + ": " + faults.get(faults.size() - 1).getMessage());
  }

  private static Optional<String> words(SQLException fault) {
    return switch (fault.getErrorCode()) {
      case ErrorCode.FILE_CORRUPTED_1 -> Optional.of(DAMAGED);
      // What closed it is told once, to whoever wrote first, who only tidies up after that.
      case ErrorCode.DATABASE_IS_CLOSED -> Optional.of(FULL);
      default -> Optional.empty();
    };
  }
}
