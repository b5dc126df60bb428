package org.intercusp.cli;

import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.h2.api.ErrorCode;
import org.intercusp.archive.DatabaseTrouble;
import org.jspecify.annotations.Nullable;

/** What an operator can do about a database that cannot be used. */
final class DatabaseFault {

  private static final String FULL =
      "the database in the data directory could not be written; see whether the disk is full,"
          + " make room and start again";

  private DatabaseFault() {}

  /** In words, where one is among these causes. */
  static Optional<String> in(List<Throwable> chain) {
    // The words of Linux and macOS.
    if (chain.stream().map(Throwable::getMessage).anyMatch(DatabaseFault::isFull)) {
      return Optional.of(FULL);
    }
    List<SQLException> faults =
        chain.stream()
            .filter(SQLException.class::isInstance)
            .map(SQLException.class::cast)
            .toList();
    return faults.stream()
        .flatMap(fault -> words(fault).stream())
        .findFirst()
        .or(() -> unreached(chain, faults));
  }

  /** The driver's own words, which name host and port, and not those of the pool around it. */
  private static Optional<String> unreached(List<Throwable> chain, List<SQLException> faults) {
    return DatabaseTrouble.in(chain.get(0))
        .filter(trouble -> trouble == DatabaseTrouble.UNREACHED)
        .map(trouble -> trouble.words() + ": " + faults.get(faults.size() - 1).getMessage());
  }

  private static boolean isFull(@Nullable String message) {
    return message != null && message.contains("No space left on device");
  }

  private static Optional<String> words(SQLException fault) {
    return switch (fault.getErrorCode()) {
      case ErrorCode.FILE_CORRUPTED_1 ->
          Optional.of(
              "the database in the data directory is damaged; bring a backup into a directory"
                  + " without one (restore --from FILE), and keep the damaged file");
      // What closed it is told once, to whoever wrote first, who only tidies up after that.
      case ErrorCode.DATABASE_IS_CLOSED -> Optional.of(FULL);
      default -> Optional.empty();
    };
  }
}
