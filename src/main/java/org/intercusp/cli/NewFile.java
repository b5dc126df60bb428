package org.intercusp.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;

/** A file that a command makes: never over one that is there, and whole or not at all. */
record NewFile(Path path) {

  /** Why it cannot be made; empty where it can. */
  Optional<String> obstacle() {
    Path directory = path.toAbsolutePath().getParent();
    boolean free = !Files.exists(path) && directory != null && Files.isDirectory(directory);
    return free
        ? Optional.empty()
        : Optional.of(path + " is not a new file in a directory that is there");
  }

  /** Writes it. */
  void write(byte[] content) throws IOException {
    Path part = path.resolveSibling(path.getFileName() + ".part");
    try {
      Files.write(part, content);
      Files.move(part, path, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }
}
