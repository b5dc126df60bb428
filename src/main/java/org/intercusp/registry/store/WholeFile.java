package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;

/**
 * A file that is there whole or not at all, for its owner alone: whoever reads beside the writer
 * sees the one before.
 */
final class WholeFile {

  /** What fills the file. */
  interface Filling {
    void fill(Path file) throws IOException, SQLException;
  }

  private WholeFile() {}

  /**
   * Fills a file in another place and moves it into its place; where filling fails, nothing stays.
   */
  static void write(Path target, Filling filling) throws IOException, SQLException {
    Path folder = target.toAbsolutePath().getParent();
    // The engine makes its file anew, readable by everybody: nobody looks into the place it grows.
    Path apart = Files.createTempDirectory(folder, "." + target.getFileName() + "-");
    Path unfinished = apart.resolve(target.getFileName());
    try {
      OwnerAlone.directory(apart);
      filling.fill(unfinished);
      OwnerAlone.file(unfinished);
      Files.move(
          unfinished, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(unfinished);
      Files.deleteIfExists(apart);
    }
  }
}
