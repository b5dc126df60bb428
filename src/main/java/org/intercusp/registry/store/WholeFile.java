package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;

/**
 * A file that is there whole or not at all: whoever reads beside the writer sees the one before.
 */
final class WholeFile {

  /** What fills the file. */
  interface Filling {
    void fill(Path file) throws IOException, SQLException;
  }

  private WholeFile() {}

  /**
   * Fills a file of another name and moves it into its place; where filling fails, nothing stays.
   */
  static void write(Path target, Filling filling) throws IOException, SQLException {
    Path folder = target.toAbsolutePath().getParent();
    Path unfinished = Files.createTempFile(folder, "." + target.getFileName() + "-", ".unfinished");
    try {
      filling.fill(unfinished);
      Files.move(
          unfinished, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(unfinished);
    }
  }
}
